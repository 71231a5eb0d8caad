// Load from this process onto loopback: a fixed number of connections, a bounded time, and the
// figures.
import { Agent, request } from "node:http";

export interface Load {
  port: number;
  connections: number;
  seconds: number;
  /** Method, path, headers and body of the n-th request. */
  next(n: number): { method: string; path: string; headers: Record<string, string>; body?: string };
}

export interface Figures {
  perSecond: number;
  p50Ms: number;
  p99Ms: number;
  refused: number;
}

export async function load(options: Load): Promise<Figures> {
  const agent = new Agent({ keepAlive: true, maxSockets: options.connections });
  const until = performance.now() + options.seconds * 1000;
  const latenciesMs: number[] = [];
  let refused = 0;
  let n = 0;
  const worker = async (): Promise<void> => {
    while (performance.now() < until) {
      const started = performance.now();
      const status = await send(agent, options.port, options.next(n++));
      latenciesMs.push(performance.now() - started);
      if (status >= 400) refused += 1;
    }
  };
  const began = performance.now();
  await Promise.all(Array.from({ length: options.connections }, worker));
  const elapsedS = (performance.now() - began) / 1000;
  agent.destroy();
  return { ...percentiles(latenciesMs), perSecond: latenciesMs.length / elapsedS, refused };
}

function send(agent: Agent, port: number, next: ReturnType<Load["next"]>): Promise<number> {
  return new Promise((resolve, reject) => {
    const sent = request({ agent, host: "127.0.0.1", port, ...next }, (reply) => {
      reply.resume();
      reply.on("end", () => resolve(reply.statusCode ?? 0));
    });
    sent.on("error", reject);
    sent.end(next.body);
  });
}

/** The same loop without HTTP, for work measured straight at the database. */
export async function loop(
  connections: number,
  seconds: number,
  work: (connection: number) => Promise<void>,
): Promise<number> {
  const until = performance.now() + seconds * 1000;
  const began = performance.now();
  let done = 0;
  await Promise.all(
    Array.from({ length: connections }, async (_, connection) => {
      while (performance.now() < until) {
        await work(connection);
        done += 1;
      }
    }),
  );
  return done / ((performance.now() - began) / 1000);
}

function percentiles(values: number[]): { p50Ms: number; p99Ms: number } {
  const sorted = values.sort((a, b) => a - b);
  const at = (share: number): number => sorted[Math.floor((sorted.length - 1) * share)] ?? 0;
  return { p50Ms: at(0.5), p99Ms: at(0.99) };
}

export const median = (values: number[]): number =>
  values.sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0;
