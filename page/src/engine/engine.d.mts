// The engine as emscripten builds it (page/engine/bridge.cpp).
export interface EngineModule {
  /**
   * @param method a name of Methods
   * @param args its arguments as JSON
   * @param tell called with work done and in all by methods that give progress
   * @returns an Answer as JSON
   */
  call(method: string, args: string, tell: (done: number, all: number) => void): string;
  /** A column of the last film, by name: a copy. */
  floats(name: string): Float32Array;
}
export default function start(options?: { wasmBinary?: ArrayBuffer }): Promise<EngineModule>;
