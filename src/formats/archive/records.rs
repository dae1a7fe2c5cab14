//! Sorts the members of an archive into records: a header, the files that it names, the headers of its
//! parts with theirs, and what else has its name. All of them lie in one folder.

use super::Member;
use crate::formats::{SourceFile, wfdb};

/// A record out of an archive.
#[derive(Debug)]
pub(super) struct Record {
    folder: String,
    /// The name of its header.
    pub(super) header: String,
    /// The files that belong to it, except its header.
    names: Vec<String>,
    /// What was found of it.
    pub(super) files: Vec<SourceFile>,
}

impl Record {
    /// The name of its header with its folders.
    pub(super) fn path(&self) -> String {
        format!("{}{}", self.folder, self.header)
    }

    fn names(&self, member: &Member) -> bool {
        let is_its = |name: &String| name.eq_ignore_ascii_case(&member.file.name);
        self.folder == member.folder && self.names.iter().any(is_its)
    }

    fn has_the_name_of(&self, member: &Member) -> bool {
        self.folder == member.folder && stem(&self.header) == stem(&member.file.name)
    }
}

/// The records in order, and what belongs to none. A file goes to one record only: to the first that
/// names it, else to the one that is called like it.
pub(super) fn split(members: Vec<Member>) -> (Vec<Record>, Vec<Member>) {
    let mut records: Vec<Record> = Vec::new();
    let headers = members.iter().filter(|member| wfdb::is_header(&member.file));
    for member in headers.clone() {
        let mut names = wfdb::named_files(&member.file);
        let parts = headers
            .clone()
            .filter(|part| part.folder == member.folder && names.contains(&part.file.name));
        let files: Vec<String> = parts.flat_map(|part| wfdb::named_files(&part.file)).collect();
        names.extend(files);
        let (folder, header) = (member.folder.clone(), member.file.name.clone());
        records.push(Record { folder, header, names, files: Vec::new() });
    }
    // The header of a part is no record of its own beside the whole.
    let parts: Vec<bool> = headers
        .map(|member| {
            records.iter().any(|whole| whole.header != member.file.name && whole.names(member))
        })
        .collect();
    if !parts.iter().all(|&is_part| is_part) {
        let mut parts = parts.into_iter();
        records.retain(|_| !parts.next().unwrap_or_default());
    }
    let mut beside = Vec::new();
    for member in members {
        let place = records
            .iter()
            .position(|record| record.folder == member.folder && record.header == member.file.name)
            .or_else(|| records.iter().position(|record| record.names(&member)))
            .or_else(|| records.iter().position(|record| record.has_the_name_of(&member)));
        match place.and_then(|place| records.get_mut(place)) {
            Some(record) => record.files.push(member.file),
            None => beside.push(member),
        }
    }
    (records, beside)
}

fn stem(name: &str) -> String {
    name.rsplit_once('.').map_or(name, |(stem, _)| stem).to_lowercase()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_file_goes_to_its_record() {
        let member = |path: &str, text: &str| {
            let (folder, name) = path.split_at(path.rfind('/').map_or(0, |slash| slash + 1));
            let file = SourceFile { name: name.to_owned(), bytes: text.as_bytes().to_vec() };
            Member { folder: folder.to_owned(), file }
        };
        let (records, beside) = split(vec![
            member("a_1.hea", "a_1 1 250 5\nx.dat 16"),
            member("a.hea", "a/2 1 250 9\na_1 5\n~ 4"),
            member("x.dat", ""),
            member("a.atr", ""),
            member("two/r.HEA", "r 1 250 5\nr.dat 16"),
            member("two/x.dat", ""),
            member("two/r.dat", ""),
            member("RECORDS", "a\nr"),
        ]);
        let found: Vec<(String, Vec<&str>)> = records
            .iter()
            .map(|one| (one.path(), one.files.iter().map(|file| file.name.as_str()).collect()))
            .collect();
        let whole = ("a.hea".to_owned(), vec!["a_1.hea", "a.hea", "x.dat", "a.atr"]);
        assert_eq!(found, [whole, ("two/r.HEA".to_owned(), vec!["r.HEA", "r.dat"])]);
        assert_eq!(beside.iter().map(Member::path).collect::<Vec<_>>(), ["two/x.dat", "RECORDS"]);
    }
}
