// The tablet's page in its person's language: signing in by the browser's, a visit in Spanish
// without signal, another language from the next round on.
import type { Browser, BrowserContext, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { TABLET_SPANISH } from "../../src/language/tablet-spanish.ts";
import { PASSWORD, startService, type TestService } from "../support/app.ts";
import { launchBrowser } from "../support/browser.ts";
import { accessFaults } from "../support/tablet-axe.ts";
import { addTabletVisit, type TabletVisitRows } from "../support/tablet-visit.ts";

let service: TestService;
let browser: Browser;
let baseUrl: string;
let visit: TabletVisitRows;

beforeAll(async () => {
  service = await startService();
  const address = await service.app.listen({ port: 0, host: "127.0.0.1" });
  baseUrl = address.replace("127.0.0.1", "localhost");
  browser = await launchBrowser();
  visit = await addTabletVisit(service, new Date());
});
afterAll(async () => {
  await browser?.close();
  await service?.stop();
});

const SPANISH = TABLET_SPANISH;

async function setLanguage(language: "en" | "es"): Promise<void> {
  const { id } = service.firm.people.installer;
  const { firmId } = service.firm;
  const where = { firmId_id: { firmId, id } };
  await inFirm(service.db, firmId, (tx) => tx.person.update({ where, data: { language } }));
}

const contextIn = (locale: string): Promise<BrowserContext> =>
  browser.newContext({ locale, viewport: { width: 412, height: 860 } });

async function signIn(page: Page): Promise<void> {
  await page.locator("#email").fill("installer@alder.example");
  await page.locator("#password").fill(PASSWORD);
  await page.locator("button.main").click();
  await page.getByRole("link", { name: "Install two packs" }).waitFor();
  await page.evaluate("navigator.serviceWorker.ready.then(() => true)");
}

const langOf = (page: Page): Promise<string> => page.evaluate("document.documentElement.lang");
const heading = (page: Page, name: string) => page.getByRole("heading", { level: 1, name });
const tap = (page: Page, name: string) => page.getByRole("button", { name, exact: true }).click();

async function to(page: Page, part: string): Promise<void> {
  await page.evaluate(`location.hash = "#/job/${visit.jobId}${part}"`);
}

/** Two answers, the second typed on the pad with a comma. */
async function answer(page: Page): Promise<void> {
  await page.getByRole("link", { name: "Install two packs" }).click();
  await heading(page, "Everyone briefed").waitFor();
  await tap(page, SPANISH["tabletItem.done"]);
  await page.getByText("Guardado. Cumplido").waitFor();
  await to(page, "/item/depth/");
  await page.getByText("¿Qué instrumento (calibre de profundidad)?").waitFor();
  await page.getByRole("button", { name: /DG-02.*calibración vigente hasta el \d/ }).click();
  for (const key of ["6", "2", "Coma decimal", "1", "2", "5"]) await tap(page, key);
  await page.getByLabel("Lectura").waitFor();
  await page.waitForFunction("document.querySelector('#number').value === '62,125'");
  const verdict = "Leído 62.125 mm; se necesita más de 50 mm.";
  await page.locator(".foretold", { hasText: `Cumplido: ${verdict}` }).waitFor();
  await tap(page, SPANISH["tabletItem.keep"]);
  await page.locator(".verdict", { hasText: verdict }).waitFor();
}

test("an installer's visit is in Spanish, without signal too", async () => {
  await setLanguage("es");
  const context = await contextIn("en-GB");
  const page = await context.newPage();
  await page.goto(`${baseUrl}/tablet/`);
  await heading(page, "Sign in").waitFor();
  expect(await langOf(page)).toBe("en");
  await signIn(page);
  await heading(page, "Visitas").waitFor();
  await context.setOffline(true);
  await page.reload();
  await heading(page, "Visitas").waitFor();
  expect([await langOf(page), await page.title()]).toEqual(["es", "Holdpoint en la tableta"]);
  const weekday = /^(lunes|martes|miércoles|jueves|viernes|sábado|domingo), \d+ de [a-z]+$/;
  await page.getByRole("heading", { level: 2, name: weekday }).first().waitFor();
  await answer(page);
  await page.getByRole("link", { name: "2 en espera" }).click();
  await heading(page, "Por enviar").waitFor();
  await page.getByText("2 en esta tableta, 2 en espera.").waitFor();
  expect(await page.getByText("en esta tableta, a la espera de enviarse").count()).toBe(2);
  await page.getByText(SPANISH["tabletSync.offline"]).waitFor();
  expect(await accessFaults(page, "outbox-es")).toEqual([]);

  await context.setOffline(false);
  await tap(page, SPANISH["tabletOutbox.sendNow"]);
  await page.getByRole("link", { name: "Todo enviado" }).waitFor();
  const { firmId } = service.firm;
  const where = { jobId: visit.jobId, itemId: "depth" };
  const kept = await inFirm(service.db, firmId, (tx) => tx.answer.findFirstOrThrow({ where }));
  expect(kept.value).toMatchObject({ number: "62.125" });
  await context.close();
});

test("signing in goes by the browser; another language holds from the next round on", async () => {
  await setLanguage("es");
  const context = await contextIn("es-MX");
  const page = await context.newPage();
  await page.goto(`${baseUrl}/tablet/`);
  await heading(page, "Entrar").waitFor();
  expect(await langOf(page)).toBe("es");
  await signIn(page);
  await page.getByRole("link", { name: "Todo enviado" }).click();
  await heading(page, "Por enviar").waitFor();

  const account = await context.newPage();
  await account.goto(`${baseUrl}/account`);
  await account.locator("select[name=language]").selectOption("en");
  await account.locator("form[action='/account/language'] button").click();
  await account.getByRole("heading", { name: "Your account" }).waitFor();
  await account.close();
  await tap(page, SPANISH["tabletOutbox.sendNow"]);
  await heading(page, "Outbox").waitFor();
  await context.setOffline(true);
  await page.reload();
  await heading(page, "Outbox").waitFor();
  expect(await langOf(page)).toBe("en");
  await context.close();
});
