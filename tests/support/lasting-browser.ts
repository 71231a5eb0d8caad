// A browser with a profile on the disk, whose process a test can kill as a crash or an empty
// battery would, and start again on what is left.
import { type ChildProcess, spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { createInterface } from "node:readline";
import { type Browser, type BrowserContext, chromium } from "playwright-core";
import { findBrowser } from "./browser.ts";

const ARGUMENTS = [
  ...["--headless", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage"],
  ...["--disable-quic", "--no-first-run", "--remote-debugging-port=0", "about:blank"],
];

export class LastingBrowser {
  readonly #folder = mkdtempSync(join(tmpdir(), "holdpoint-browser-"));
  #process: ChildProcess | undefined;
  #browser: Browser | undefined;

  async start(): Promise<BrowserContext> {
    const executable = await findBrowser();
    const child = spawn(executable, [`--user-data-dir=${this.#folder}`, ...ARGUMENTS], {
      stdio: ["ignore", "ignore", "pipe"],
    });
    this.#process = child;
    this.#browser = await chromium.connectOverCDP(await addressOf(child));
    const [context] = this.#browser.contexts();
    if (!context) throw new Error("the browser has no profile");
    return context;
  }

  /** SIGKILL: nothing more is written by it. */
  async kill(): Promise<void> {
    const child = this.#process;
    this.#process = undefined;
    if (!child || child.exitCode !== null) return;
    const ended = new Promise((resolve) => child.once("exit", resolve));
    child.kill("SIGKILL");
    await ended;
    await this.#browser?.close().catch(() => undefined);
  }

  async stop(): Promise<void> {
    await this.kill();
    rmSync(this.#folder, { recursive: true, force: true, maxRetries: 10 });
  }
}

/** It says on its error stream where it can be spoken to. */
function addressOf(child: ChildProcess): Promise<string> {
  return new Promise((resolve, reject) => {
    const { stderr } = child;
    if (!stderr) throw new Error("the browser's error stream is not read");
    createInterface({ input: stderr }).on("line", (line) => {
      const address = /DevTools listening on (ws:\S+)/.exec(line)?.[1];
      if (address) resolve(address);
    });
    child.once("exit", (code) => reject(new Error(`the browser ended with ${code}`)));
  });
}
