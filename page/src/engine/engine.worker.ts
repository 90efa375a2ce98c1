// The worker: the engine in WebAssembly behind one message a call.
import type { FallFilm, Progress, ShakeFilm } from "./api";
import type { FromWorker, Method, ToWorker } from "./methods";
import start, { type EngineModule } from "./engine.mjs";

let engine: Promise<EngineModule> | null = null;

const send = (message: FromWorker, transfer: Transferable[] = []): void => self.postMessage(message, { transfer });

/** What films hold besides numbers: copied out of the engine's memory by name. */
const floats: Partial<Record<Method, readonly string[]>> = {
  shake_film: ["main", "backup", "swing_m", "at_place_m", "energy"] satisfies (keyof ShakeFilm)[],
  fall_film: ["main", "backup", "body", "leash_N"] satisfies (keyof FallFilm)[],
};

async function answer(message: ToWorker): Promise<void> {
  const { id, method } = message;
  try {
    engine ??= start();
    const module = await engine;
    const tell = (done: number, all: number): void => {
      const progress: Progress = { done, all };
      send({ id, kind: "progress", progress });
    };
    const json = module.call(method, JSON.stringify(message.args), tell);
    const columns: Record<string, Float32Array> = {};
    for (const name of floats[method] ?? []) columns[name] = module.floats(name);
    send({ id, kind: "answer", json, columns }, Object.values(columns).map((column) => column.buffer as ArrayBuffer));
  } catch (fault) {
    send({ id, kind: "bug", words: fault instanceof Error ? fault.message : String(fault) });
  }
}

self.onmessage = (event: MessageEvent<ToWorker>): void => void answer(event.data);
