//! How far a long job has come. Cancelling is the shell's business: it ends the worker.

/// Told from time to time how much of a job is done, from 0.0 to 1.0.
pub trait Progress {
    /// `part` of the job is done.
    fn at(&mut self, part: f64);
}

/// Nobody is listening.
impl Progress for () {
    fn at(&mut self, _part: f64) {}
}

impl<F: FnMut(f64)> Progress for F {
    fn at(&mut self, part: f64) {
        self(part);
    }
}
