import { fork } from "node:child_process";
import { once } from "node:events";
import { fileURLToPath } from "node:url";

export interface Child {
  port: number;
  pid: number;
  /** Sends a message and waits for the next one that comes back. */
  ask(message: string): Promise<unknown>;
  stop(): void;
}

/** Starts one of the bench servers and waits for the port it listens on. */
export async function startChild(
  file: string,
  args: string[],
  execArgv: string[] = [],
): Promise<Child> {
  const child = fork(fileURLToPath(new URL(file, import.meta.url)), args, { execArgv });
  const failed = once(child, "exit").then(() => {
    throw new Error(`${file} ended before it listened`);
  });
  const [{ port }] = (await Promise.race([once(child, "message"), failed])) as [{ port: number }];
  failed.catch(() => undefined);
  const ask = async (message: string): Promise<unknown> => {
    child.send(message);
    return (await once(child, "message"))[0];
  };
  return { port, pid: child.pid ?? 0, ask, stop: () => void child.kill("SIGTERM") };
}
