// Workers at work for a time, and what came of it.
import { Agent, request } from "node:http";
import type { Ask, Worker } from "./load-clients.ts";

/** Milliseconds, to be asked for the share that was as quick. */
export class Latencies {
  readonly #all: number[] = [];
  #isSorted = true;

  add(ms: number): void {
    this.#all.push(ms);
    this.#isSorted = false;
  }

  get count(): number {
    return this.#all.length;
  }

  at(share: number): number {
    if (!this.#isSorted) this.#all.sort((a, b) => a - b);
    this.#isSorted = true;
    return this.#all[Math.floor((this.#all.length - 1) * share)] ?? 0;
  }
}

export interface Outcome {
  seconds: number;
  replies: number;
  /** Told to come again later (503 with Retry-After). */
  busy: number;
  /** Any other reply of 400 and more, or none; who is sent to sign in has no page either. */
  faults: number;
  /** How often each of them: "401 of page today". */
  faultKinds: Map<string, number>;
  latencies: Latencies;
  byKind: Map<string, Latencies>;
}

const BUSY = 503;
const RETRY_AFTER_MOST_MS = 1000;

export async function workFor(port: number, workers: Worker[], ms: number): Promise<Outcome> {
  const agent = new Agent({ keepAlive: true, maxSockets: workers.length });
  const outcome: Outcome = {
    ...{ seconds: 0, replies: 0, busy: 0, faults: 0 },
    ...{ latencies: new Latencies(), byKind: new Map(), faultKinds: new Map() },
  };
  const began = performance.now();
  const until = began + ms;
  const work = async (worker: Worker): Promise<void> => {
    let wasTaken = true;
    while (performance.now() < until) {
      const ask = worker(wasTaken);
      const asked = performance.now();
      const status = await send(agent, port, ask);
      wasTaken = status < 400;
      note(outcome, ask.kind, status, performance.now() - asked);
      if (status === BUSY) await new Promise((go) => setTimeout(go, RETRY_AFTER_MOST_MS));
    }
  };
  await Promise.all(workers.map(work));
  agent.destroy();
  outcome.seconds = (performance.now() - began) / 1000;
  return outcome;
}

function note(outcome: Outcome, kind: string, status: number, ms: number): void {
  if (status === BUSY) outcome.busy += 1;
  else if (status >= 400) {
    outcome.faults += 1;
    const fault = `${status} of ${kind}`;
    outcome.faultKinds.set(fault, (outcome.faultKinds.get(fault) ?? 0) + 1);
  } else {
    outcome.replies += 1;
    outcome.latencies.add(ms);
    const own = outcome.byKind.get(kind) ?? new Latencies();
    own.add(ms);
    outcome.byKind.set(kind, own);
  }
}

const NO_REPLY = 599;
const NOT_SIGNED_IN = 401;

function send(agent: Agent, port: number, { body, ...ask }: Ask): Promise<number> {
  return new Promise((resolve) => {
    const sent = request({ agent, host: "127.0.0.1", port, ...ask }, (reply) => {
      reply.resume();
      const isSentToSignIn = reply.headers.location?.startsWith("/sign-in") ?? false;
      const status = isSentToSignIn ? NOT_SIGNED_IN : (reply.statusCode ?? NO_REPLY);
      reply.on("end", () => resolve(status));
      reply.on("error", () => resolve(NO_REPLY));
    });
    sent.on("error", () => resolve(NO_REPLY));
    sent.end(body);
  });
}

export function tableOf({ byKind, seconds }: Outcome): string {
  const rows = [...byKind].sort(([left], [right]) => left.localeCompare(right));
  return rows
    .map(([kind, all]) => {
      const [p50, p95, p99] = [0.5, 0.95, 0.99].map((share) => all.at(share).toFixed(0));
      const rate = (all.count / seconds).toFixed(1);
      return `${kind} | ${rate}/s | p50 ${p50} | p95 ${p95} | p99 ${p99} ms`;
    })
    .join("\n");
}
