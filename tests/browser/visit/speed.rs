//! What the browser knows about how fast a page is and what it holds.

use super::Visit;
use serde_json::json;

/// Keeps the memory of the page's WASM where a test finds it.
const KEEP_MEMORY: &str = "
    const { instantiate, instantiateStreaming } = WebAssembly;
    const kept = made => { window.wasm = (made.instance ?? made).exports.memory; return made; };
    WebAssembly.instantiate = (...given) => instantiate(...given).then(kept);
    WebAssembly.instantiateStreaming = (...given) => instantiateStreaming(...given).then(kept);";

/// What a page holds after rubbish was collected.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Held {
    /// Memory of JavaScript, bytes.
    pub(crate) script: f64,
    /// Memory of the page's WASM, bytes.
    pub(crate) wasm: f64,
    /// Nodes of all documents.
    pub(crate) nodes: f64,
    /// Listeners to events.
    pub(crate) listeners: f64,
}

impl Visit {
    /// Loads the page as if it had never been seen, with its memory kept for [`Visit::held`].
    pub(crate) fn load_anew(&self) {
        self.command("Network.enable", json!({}));
        self.command("Network.setCacheDisabled", json!({ "cacheDisabled": true }));
        self.command("Network.setBypassServiceWorker", json!({ "bypass": true }));
        self.before_each_page(KEEP_MEMORY);
        self.reload();
    }

    /// What the page holds now.
    pub(crate) fn held(&self) -> Held {
        self.command("Performance.enable", json!({}));
        // What one collection frees may hold more: nodes go only after the scripts that knew them.
        for _ in 0..4 {
            self.command("HeapProfiler.collectGarbage", json!({}));
            self.settle();
        }
        let metrics = self.command("Performance.getMetrics", json!({}));
        let metric = |name: &str| {
            let all = metrics["metrics"].as_array().expect("metrics are a list");
            let found = all.iter().find(|metric| metric["name"] == name);
            found.and_then(|metric| metric["value"].as_f64()).expect("the metric is known")
        };
        let wasm = self.run("return window.wasm.buffer.byteLength", Vec::new());
        Held {
            script: metric("JSHeapUsedSize"),
            wasm: wasm.as_f64().unwrap_or_default(),
            nodes: metric("Nodes"),
            listeners: metric("JSEventListeners"),
        }
    }
}
