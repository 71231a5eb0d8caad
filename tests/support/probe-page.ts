// The tablet's own store and sending in a page of a real browser, without views.
import { build } from "esbuild";
import type { BrowserContext, CDPSession, Page } from "playwright-core";
import type { TabletOp } from "../../src/features/tablet/schemas.ts";
import { PASSWORD, type TestService } from "./app.ts";

export interface ProbeOptions {
  /** Whose store it is, where it is not the firm of the person who signs in. */
  firmId?: string;
  jobId: string;
  /** Told each operation that was kept. */
  told?: (op: TabletOp) => void;
  /** The page's address: each name under `localhost` has a store and cookies of its own. */
  at: string;
}

/** A page of the service's address, so that it has its cookies. */
export class ProbePages {
  readonly #service: TestService;
  readonly #script: string;
  readonly port: number;

  static async before(service: TestService): Promise<ProbePages> {
    const address = await service.app.listen({ port: 0, host: "127.0.0.1" });
    const { outputFiles } = await build({
      entryPoints: [new URL("../tablet/support/store-page.ts", import.meta.url).pathname],
      ...{ bundle: true, write: false, format: "iife", target: "es2022" },
    });
    return new ProbePages(service, outputFiles?.[0]?.text ?? "", Number(new URL(address).port));
  }

  private constructor(service: TestService, script: string, port: number) {
    this.#service = service;
    this.#script = script;
    this.port = port;
  }

  async open(context: BrowserContext, { firmId, jobId, told, at }: ProbeOptions): Promise<Page> {
    const page = await context.newPage();
    await page.route("**/tablet/probe", (route) =>
      route.fulfill({ contentType: "text/html", body: "<!doctype html><title>Probe</title>" }),
    );
    if (told) await page.exposeFunction("told", told);
    await page.goto(`${at}/tablet/probe`);
    await page.addScriptTag({ content: this.#script });
    const { firm } = this.#service;
    const whose = [firmId ?? firm.firmId, firm.people.installer.id, jobId];
    await page.evaluate(`openProbe(...${JSON.stringify(whose)}).then((p) => { probe = p; })`);
    return page;
  }

  async signIn(page: Page): Promise<void> {
    const { email } = this.#service.firm.people.installer;
    const outcome = await ask<{ ok: boolean }>(page, `signIn("${email}", "${PASSWORD}")`);
    if (!outcome.ok) throw new Error(`nobody is signed in: ${JSON.stringify(outcome)}`);
  }
}

export const ask = <T>(page: Page, call: string): Promise<T> => page.evaluate(`probe.${call}`);

export const protocol = (page: Page): Promise<CDPSession> => page.context().newCDPSession(page);

/** What a browser clears for want of room: everything but cookies. */
export async function clearStore(page: Page): Promise<void> {
  const { origin } = new URL(page.url());
  const storageTypes = "indexeddb,local_storage,cache_storage,file_systems,service_workers";
  await (await protocol(page)).send("Storage.clearDataForOrigin", { origin, storageTypes });
}
