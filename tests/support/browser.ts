// A real browser: the Chromium that npm ships on Linux, or one installed elsewhere.
import { existsSync } from "node:fs";
import { type Browser, chromium as playwright } from "playwright-core";

const INSTALLED = [
  process.env.CHROMIUM_PATH,
  "/usr/bin/chromium",
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
  "C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe",
];

export async function launchBrowser(): Promise<Browser> {
  const executablePath = await findBrowser();
  // Quiet on the network, and without the sandbox that containers and root cannot give it.
  const args = ["--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", "--disable-quic"];
  return playwright.launch({ executablePath, args, headless: true });
}

export async function findBrowser(): Promise<string> {
  if (process.platform === "linux" && process.arch === "x64") {
    const { default: chromium } = await import("@sparticuz/chromium");
    return chromium.executablePath();
  }
  const installed = INSTALLED.find((path) => path !== undefined && existsSync(path));
  if (installed) return installed;
  throw new Error(
    "No browser was found for the browser tests: install Chromium and set CHROMIUM_PATH.",
  );
}
