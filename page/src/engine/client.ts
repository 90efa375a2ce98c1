// One engine in one worker. Calls are answered in turn; stop() ends what runs at once.
import type { Answer, Progress } from "./api";
import EngineWorker from "./engine.worker?worker&inline";
import type { FromWorker, Method, Methods } from "./methods";

interface Waiting {
  method: Method;
  settle: (answer: Methods[Method]["out"]) => void;
  fail: (fault: Error) => void;
  progress: ((progress: Progress) => void) | undefined;
}

function withColumns(json: string, columns: Record<string, Float32Array>): Methods[Method]["out"] {
  const answer = JSON.parse(json) as Answer<object>;
  if (answer.ok) Object.assign(answer.value, columns);
  return answer as Methods[Method]["out"];
}

const stopped: Answer<never> = { ok: false, why: "no answer", faults: [], words: "Stopped." };

export class Engine {
  private worker: Worker | null = null;
  private readonly waiting = new Map<number, Waiting>();
  private next = 1;

  /** True while a call waits for its answer. */
  get busy(): boolean {
    return this.waiting.size > 0;
  }

  /**
   * @param progress called while it works, by methods that give it
   * @throws Error only for a fault of the program itself
   */
  call<M extends Method>(method: M, args: Methods[M]["in"], progress?: (progress: Progress) => void): Promise<Methods[M]["out"]> {
    const worker = this.running();
    const id = this.next++;
    return new Promise((settle, fail) => {
      this.waiting.set(id, { method, settle: settle as Waiting["settle"], fail, progress });
      worker.postMessage({ id, method, args });
    });
  }

  /** Whatever waits is answered with "Stopped."; the next call starts afresh. */
  stop(): void {
    this.worker?.terminate();
    this.worker = null;
    const all = [...this.waiting.values()];
    this.waiting.clear();
    for (const call of all) call.settle(stopped);
  }

  private running(): Worker {
    if (this.worker) return this.worker;
    const worker = new EngineWorker();
    worker.onmessage = (event: MessageEvent<FromWorker>) => this.take(event.data);
    worker.onerror = (event) => this.fail(new Error(`The engine did not start: ${event.message}`));
    this.worker = worker;
    return worker;
  }

  private take(message: FromWorker): void {
    const call = this.waiting.get(message.id);
    if (!call) return;
    if (message.kind === "progress") {
      call.progress?.(message.progress);
      return;
    }
    this.waiting.delete(message.id);
    if (message.kind === "bug") {
      call.fail(new Error(message.words));
      this.fail(new Error(message.words)); // its memory may be anything now
    }
    else call.settle(withColumns(message.json, message.columns));
  }

  /** What waits fails with it; the next call starts afresh. */
  private fail(fault: Error): void {
    this.worker?.terminate();
    this.worker = null;
    const all = [...this.waiting.values()];
    this.waiting.clear();
    for (const call of all) call.fail(fault);
  }
}
