// A real browser before the real service, with the figures of what was kept.
import type { BrowserContext } from "playwright-core";
import { startService, type TestService } from "../support/app.ts";
import { LastingBrowser } from "../support/lasting-browser.ts";
import { addPracticeJob, type PracticeJob } from "../support/practice-job.ts";
import { ProbePages } from "../support/probe-page.ts";
import { Tally } from "./tally.ts";

export interface ProbeStage {
  service: TestService;
  tally: Tally;
  pages: ProbePages;
  context: BrowserContext;
  job(): Promise<PracticeJob>;
  /** Ends the browser at once, and starts it again on what is on the disk. */
  killBrowser(): Promise<void>;
  /** An address whose store and cookies nobody has used. */
  newAddress(kind: string): string;
  stop(): Promise<void>;
}

/** @param environment the service's settings */
export async function setProbeStage(environment: Record<string, string> = {}): Promise<ProbeStage> {
  const service = await startService({ environment });
  const tally = await Tally.of(service.ownerUrl);
  const pages = await ProbePages.before(service);
  const browser = new LastingBrowser();
  let addresses = 0;
  const stage: ProbeStage = {
    ...{ service, tally, pages, context: await browser.start() },
    job: () => addPracticeJob(service),
    killBrowser: async () => {
      await browser.kill();
      stage.context = await browser.start();
    },
    newAddress: (kind) => {
      addresses += 1;
      return `http://${kind}-${addresses}.localhost:${pages.port}`;
    },
    stop: async () => {
      await browser.stop();
      await tally.close();
      await service.stop();
    },
  };
  return stage;
}
