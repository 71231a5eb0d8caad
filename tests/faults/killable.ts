// The real process on its embedded database, made to be killed: started, asked when it is ready,
// ended with kill -9 in part or whole.
import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { fileURLToPath } from "node:url";
import { runningPort } from "../../src/db/embedded/join.ts";

const MAIN = fileURLToPath(new URL("../../src/main.ts", import.meta.url));

export const KINDS = ["service", "database", "both"] as const;
export type Kind = (typeof KINDS)[number];

export class Killable {
  readonly #folder: string;
  #child: ChildProcess | undefined;
  #said = "";
  #killed = 0;
  address = "";

  constructor(folder: string) {
    this.#folder = folder;
  }

  get process(): ChildProcess {
    if (!this.#child) throw new Error("it has not been started");
    return this.#child;
  }

  get pid(): number {
    return this.process.pid ?? 0;
  }

  /** Of the database's first process, as its lock file has it. */
  databasePid(): number {
    const lock = join(this.#folder, "database", "cluster", "postmaster.pid");
    return Number(readFileSync(lock, "utf8").split("\n")[0]);
  }

  async start(): Promise<void> {
    const child = spawn(process.execPath, [MAIN], {
      env: {
        PATH: process.env.PATH,
        DATA_DIR: this.#folder,
        ...{ PORT: "0", DEMO: "false", RUNS: "false", LOG_LEVEL: "silent" },
      },
    });
    this.#child = child;
    this.#said = "";
    await new Promise<void>((resolve, reject) => {
      const read = (chunk: Buffer): void => {
        this.#said += chunk;
        const [, address] = /listens on (http:\S+)/.exec(this.#said) ?? [];
        if (address === undefined) return;
        this.address = address.replace("localhost", "127.0.0.1");
        resolve();
      };
      child.stdout?.on("data", read);
      child.stderr?.on("data", read);
      child.once("exit", (code) => reject(new Error(`ended with ${code}: ${this.#said}`)));
    });
  }

  /** Ends what the kind names, at once. */
  async kill(kind: Kind): Promise<void> {
    const child = this.#child;
    const gone = kind === "database" || !child ? undefined : once(child, "exit");
    if (kind !== "service") {
      this.#killed = this.databasePid();
      process.kill(this.#killed, "SIGKILL");
    }
    if (kind !== "database") child?.kill("SIGKILL");
    await gone;
  }

  #isStillKilled(): boolean {
    const folder = join(this.#folder, "database");
    return runningPort(folder) === undefined || this.databasePid() === this.#killed;
  }

  async isReady(): Promise<boolean> {
    return fetch(`${this.address}/health/ready`).then(
      ({ status }) => status === 200,
      () => false,
    );
  }

  /** Back to work after a kill; returns after how many milliseconds. */
  async recover(kind: Kind): Promise<number> {
    const from = performance.now();
    if (kind !== "database") await this.start();
    // Processes of a killed database answer for a moment more.
    while (this.#isStillKilled() || !(await this.isReady())) {
      const { exitCode } = this.process;
      if (exitCode !== null) throw new Error(`it gave up with ${exitCode}: ${this.#said}`);
      await pause(10);
    }
    return performance.now() - from;
  }

  async stop(): Promise<void> {
    const child = this.#child;
    if (!child || child.exitCode !== null || child.signalCode !== null) return;
    child.kill("SIGTERM");
    await once(child, "exit");
  }
}
