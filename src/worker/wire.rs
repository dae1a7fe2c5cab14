//! How a message travels: an array of the job number, the message as JSON, and its buffers.

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
        let json = serde_json::to_string(&self.message)
            .map_err(|error| JsValue::from(error.to_string()))?;
        let handed: Array = self.buffers.iter().collect();
        let parcel = Array::of2(&JsValue::from(self.job), &JsValue::from(json));
        Ok((parcel.concat(&handed), handed))
    }

    /// Reads a posted parcel; `None` when it is not one.
    pub(super) fn unpack(posted: &JsValue) -> Option<Self> {
        let parcel: &Array = posted.dyn_ref()?;
        let job = parcel.get(0).as_f64()? as u32;
        let message = serde_json::from_str(&parcel.get(1).as_string()?).ok()?;
        let buffers =
            parcel.iter().skip(2).map(|part| part.dyn_into().ok()).collect::<Option<_>>()?;
        Some(Self { job, message, buffers })
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
