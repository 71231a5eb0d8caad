import type { ChildProcess } from "node:child_process";
import { once } from "node:events";
import { setTimeout as pause } from "node:timers/promises";

/** Who wants to know when the server ends by itself. */
export interface ClusterWatch {
  /** It was started again on its old port. */
  revived(): void;
  /** It does not start again, for this reason. */
  lost(reason: string): void;
}

export const READY = "ready to accept connections";
/** A server that follows another says so in its own words. */
const IS_READY = /ready to accept (?:read-only )?connections/;
const REVIVAL_TRIES = 60;
const REVIVAL_PAUSE_MS = 250;

/**
 * A server that ends by itself is started again on its port, where all connections look for it.
 * PostgreSQL refuses a start as long as any process of the one before is still ending.
 * @returns what stops it for good
 */
export function keepRunning(
  first: ChildProcess,
  start: () => ChildProcess,
  watch: ClusterWatch | undefined,
): () => Promise<void> {
  let current = first;
  let stopping = false;
  const revive = async (): Promise<void> => {
    let outcome = "";
    for (let attempt = 0; attempt < REVIVAL_TRIES && !stopping; attempt += 1) {
      current = start();
      outcome = await untilReady(current);
      if (outcome === READY) {
        guard(current);
        return watch?.revived();
      }
      await pause(REVIVAL_PAUSE_MS);
    }
    if (!stopping) watch?.lost(`The embedded database ended by itself: ${outcome.trim()}`);
  };
  const guard = (child: ChildProcess): void => {
    if (child.exitCode !== null || child.signalCode !== null) void revive();
    else child.once("exit", () => !stopping && void revive());
  };
  guard(first);
  return () => {
    stopping = true;
    return stop(current);
  };
}

export async function untilReady(child: ChildProcess): Promise<string> {
  return new Promise((resolve) => {
    let log = "";
    const stderr = child.stderr;
    const onData = (chunk: Buffer): void => {
      log += chunk;
      if (!IS_READY.test(log)) return;
      stderr?.off("data", onData);
      stderr?.resume();
      resolve(READY);
    };
    stderr?.on("data", onData);
    child.once("close", () => resolve(log || "it ended at once, without a word"));
    child.once("error", (error) => resolve(String(error)));
  });
}

async function stop(child: ChildProcess): Promise<void> {
  if (child.exitCode !== null || child.signalCode !== null) return;
  const closed = once(child, "exit");
  if (process.platform === "win32") child.kill();
  else child.stdin?.end();
  await closed;
}
