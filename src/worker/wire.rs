//! How a message travels: an array of the job number, the message in bytes, and its buffers.

use js_sys::{Array, ArrayBuffer, Float32Array, Uint8Array};
use serde::{Serialize, de::DeserializeOwned};
use wasm_bindgen::{JsCast, JsValue};

/// A message with the job it belongs to and the buffers beside it.
pub(super) struct Parcel<M> {
    pub(super) job: u32,
    pub(super) message: M,
    pub(super) buffers: Vec<ArrayBuffer>,
}

impl<M: Serialize + DeserializeOwned> Parcel<M> {
    /// Packs the parcel: what to post, and what to hand over with it.
    pub(super) fn pack(&self) -> Result<(Array, Array), JsValue> {
        let message = postcard::to_allocvec(&self.message)
            .map_err(|error| JsValue::from(error.to_string()))?;
        let handed: Array =
            [bytes_to_buffer(&message)].iter().chain(&self.buffers).cloned().collect();
        Ok((Array::of1(&JsValue::from(self.job)).concat(&handed), handed))
    }

    /// Reads a posted parcel; `None` when it is not one.
    pub(super) fn unpack(posted: &JsValue) -> Option<Self> {
        let parcel: &Array = posted.dyn_ref()?;
        let job = parcel.get(0).as_f64()? as u32;
        let buffers = parcel.iter().skip(1).map(|part| part.dyn_into().ok());
        let mut buffers: Vec<ArrayBuffer> = buffers.collect::<Option<_>>()?;
        if buffers.is_empty() {
            return None;
        }
        let message = postcard::from_bytes(&buffer_to_bytes(&buffers.remove(0))).ok()?;
        Some(Self { job, message, buffers })
    }
}

/// What is kept as JSON elsewhere travels as JSON too: the compact form knows no parts that are left out, and nothing
/// is written in two ways.
pub(super) mod as_json {
    use serde::de::{DeserializeOwned, Error as _};
    use serde::ser::Error as _;
    use serde::{Deserialize, Deserializer, Serialize, Serializer};

    pub(in crate::worker) fn serialize<T: Serialize, S: Serializer>(
        part: &T,
        to: S,
    ) -> Result<S::Ok, S::Error> {
        to.serialize_str(&serde_json::to_string(part).map_err(S::Error::custom)?)
    }

    pub(in crate::worker) fn deserialize<'de, T: DeserializeOwned, D: Deserializer<'de>>(
        from: D,
    ) -> Result<T, D::Error> {
        serde_json::from_str(&String::deserialize(from)?).map_err(D::Error::custom)
    }
}

/// Samples as a buffer that can be handed over.
pub(super) fn samples_to_buffer(samples: &[f32]) -> ArrayBuffer {
    Float32Array::from(samples).buffer()
}

/// The samples in a buffer.
pub(super) fn buffer_to_samples(buffer: &ArrayBuffer) -> Vec<f32> {
    Float32Array::new(buffer).to_vec()
}

/// Bytes as a buffer that can be handed over.
pub(super) fn bytes_to_buffer(bytes: &[u8]) -> ArrayBuffer {
    Uint8Array::from(bytes).buffer()
}

/// The bytes in a buffer.
pub(super) fn buffer_to_bytes(buffer: &ArrayBuffer) -> Vec<u8> {
    Uint8Array::new(buffer).to_vec()
}
