/// The core, in a worker of its own: JSON in, JSON or bytes out.
import wasm from '@built/treadfold.wasm?url';
import { start } from '@wasm/treadfold.mjs';

type Core = Awaited<ReturnType<typeof start>>;
export type Call = Exclude<keyof Core, never>;
export interface Request { id: number; call: Call; given: unknown[] }
export interface Reply { id: number; answer?: unknown; stopped?: string }

const core = fetch(wasm)
  .then((response) => WebAssembly.compileStreaming(response).catch(async () => WebAssembly.compile(await (await fetch(wasm)).arrayBuffer())))
  .then(start);

self.onmessage = async ({ data }: MessageEvent<Request>) => {
  const reply: Reply = { id: data.id };
  try {
    const door = (await core)[data.call] as (...given: unknown[]) => unknown;
    reply.answer = door(...data.given);
  } catch (cause) {
    reply.stopped = (cause as Error).message;
  }
  self.postMessage(reply);
};
