// The engine in WebAssembly, run by node instead of by a worker.

// It is built for workers; what it asks of node before it starts is this name.
globalThis.__dirname ??= "/";
const { default: start } = await import("../../src/engine/engine.mjs");
/** @type {import("../../src/engine/engine.d.mts").EngineModule} */
const engine = await start();

const nobody = () => {};

/** One call as the worker makes it. @returns {any} an Answer */
export function answer(method, args, tell = nobody) {
  return JSON.parse(engine.call(method, JSON.stringify(args), tell));
}

/** The value of an answer that must be one. */
export function ask(method, args, tell = nobody) {
  const given = answer(method, args, tell);
  if (!given.ok) throw new Error(`${method}: ${given.words}`);
  return given.value;
}

/** A column of the last film. */
export const floats = (name) => engine.floats(name);
