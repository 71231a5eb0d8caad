// A real browser before the real server, for the tests of one file.
import type { Browser } from "playwright-core";
import { type ServiceOptions, startService, type TestService } from "./app.ts";
import { launchBrowser } from "./browser.ts";

export interface BrowserStage {
  service: TestService;
  browser: Browser;
  /** By the name localhost, which browsers trust as they trust TLS. */
  baseUrl: string;
  close(): Promise<void>;
}

export async function openStage(options: ServiceOptions = {}): Promise<BrowserStage> {
  const service = await startService(options);
  const address = await service.app.listen({ port: 0, host: "127.0.0.1" });
  const browser = await launchBrowser();
  const close = async (): Promise<void> => {
    await browser.close();
    await service.stop();
  };
  return { service, browser, baseUrl: address.replace("127.0.0.1", "localhost"), close };
}
