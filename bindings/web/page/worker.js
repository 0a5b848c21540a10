// In the worker: the module, one request after the other. The page sends {id, act, …} and gets {id, ok} or {id, error}.
let core;
const acts = {
  load: async (message) => {
    core = await Slingseal.of(message.bytes);
    return {};
  },
  begin: (message) => core.begin(message.bytes),
  call: (message) => core.call(message.call),
  frame: (message) => {
    const from = performance.now();
    const texts = core.frame(message, message.known);
    return { texts, took: performance.now() - from };
  },
  read: (message) => ({ texts: core.read(message.file || message) }),
};
self.onmessage = async ({ data }) => {
  try {
    self.postMessage({ id: data.id, ok: await acts[data.act](data) });
  } catch (error) {
    self.postMessage({ id: data.id, error: String(error.message || error) });
  }
};
