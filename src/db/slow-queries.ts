import type pg from "pg";

export interface SlowQuery {
  /** With placeholders: values may be a customer's. */
  text: string;
  ms: number;
}

const TEXT_MOST = 2000;

type Asked = (...args: unknown[]) => unknown;

/** Tells of each query of this pool that took at least so long, Prisma's among them. */
export function watchQueries(
  pool: pg.Pool,
  leastMs: number,
  tell: (query: SlowQuery) => void,
): void {
  pool.on("connect", (client) => {
    const ask = client.query.bind(client) as Asked;
    client.query = ((...args: unknown[]) => {
      const from = performance.now();
      const ended = (): void => {
        const ms = Math.round(performance.now() - from);
        if (ms >= leastMs) tell({ text: textOf(args[0]).slice(0, TEXT_MOST), ms });
      };
      const last = args.at(-1);
      if (typeof last === "function") {
        const answered = (...results: unknown[]): unknown => {
          ended();
          return last(...results);
        };
        return ask(...args.slice(0, -1), answered);
      }
      const answer = ask(...args);
      if (answer instanceof Promise) answer.then(ended, ended);
      return answer;
    }) as typeof client.query;
  });
}

function textOf(asked: unknown): string {
  if (typeof asked === "string") return asked;
  return asked && typeof asked === "object" && "text" in asked ? String(asked.text) : "";
}
