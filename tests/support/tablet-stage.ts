// The service, a browser and a visit for tests of the tablet's page; each test has a job and a
// tablet of its own.
import type { Browser, BrowserContext, Page } from "playwright-core";
import { startService, type TestService } from "./app.ts";
import { launchBrowser } from "./browser.ts";
import { Hand, openTablet } from "./tablet-hand.ts";
import { addTabletVisit, type TabletVisitRows } from "./tablet-visit.ts";

export class TabletStage {
  readonly service: TestService;
  readonly baseUrl: string;
  readonly #browser: Browser;
  #context: BrowserContext | undefined;

  static async open(): Promise<TabletStage> {
    const service = await startService();
    const address = await service.app.listen({ port: 0, host: "127.0.0.1" });
    const baseUrl = address.replace("127.0.0.1", "localhost");
    return new TabletStage(service, baseUrl, await launchBrowser());
  }

  private constructor(service: TestService, baseUrl: string, browser: Browser) {
    this.service = service;
    this.baseUrl = baseUrl;
    this.#browser = browser;
  }

  async close(): Promise<void> {
    await this.#browser.close();
    await this.service.stop();
  }

  /** @param before what the network does from the start */
  async tablet(before: (context: BrowserContext) => Promise<unknown> = async () => undefined) {
    await this.#context?.close();
    const visit = await addTabletVisit(this.service, new Date());
    const context = await this.#browser.newContext({ viewport: { width: 412, height: 860 } });
    this.#context = context;
    await before(context);
    const page = await openTablet(context, this.baseUrl);
    return new TabletAtWork(context, page, visit);
  }
}

export class TabletAtWork {
  readonly context: BrowserContext;
  readonly page: Page;
  readonly hand: Hand;
  readonly visit: TabletVisitRows;

  constructor(context: BrowserContext, page: Page, visit: TabletVisitRows) {
    this.context = context;
    this.page = page;
    this.visit = visit;
    this.hand = new Hand(page);
  }

  /** To a place within the job of the visit. */
  async at(part: string, heading: string): Promise<void> {
    await this.page.evaluate(`location.hash = "#/job/${this.visit.jobId}${part}"`);
    await this.hand.at(heading);
  }

  async to(hash: string, heading: string): Promise<void> {
    await this.page.evaluate(`location.hash = "${hash}"`);
    await this.hand.at(heading);
  }

  async snag(text: string): Promise<void> {
    await this.at("/snag", "Note a snag");
    await this.page.getByLabel("What has to be put right later").fill(text);
    await this.hand.tap("Keep the snag");
    await this.page.getByText(text, { exact: true }).waitFor();
  }

  notice(words: string | RegExp) {
    return this.page.getByRole("region", { name: "Notices" }).getByText(words);
  }
}

/** The service's own words of refusal (RFC 9457). */
export const refusal = (status: number, detail: string) => ({
  status,
  contentType: "application/problem+json",
  body: JSON.stringify({ status, detail }),
});
