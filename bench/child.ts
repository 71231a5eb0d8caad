import { fork } from "node:child_process";
import { once } from "node:events";
import { fileURLToPath } from "node:url";

export interface Child {
  port: number;
  stop(): void;
}

/** Starts one of the bench servers and waits for the port it listens on. */
export async function startChild(file: string, args: string[]): Promise<Child> {
  const child = fork(fileURLToPath(new URL(file, import.meta.url)), args);
  const failed = once(child, "exit").then(() => {
    throw new Error(`${file} ended before it listened`);
  });
  const [{ port }] = (await Promise.race([once(child, "message"), failed])) as [{ port: number }];
  failed.catch(() => undefined);
  return { port, stop: () => void child.kill("SIGKILL") };
}
