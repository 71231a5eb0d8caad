import { createServer, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import type { Browser, Page } from "playwright-core";
import sharp from "sharp";
import { afterAll, beforeAll, expect, test } from "vitest";
import { readConfig } from "../../src/config.ts";
import { sendWebhooks } from "../../src/runs/send-webhooks.ts";
import { startService, type TestService } from "../support/app.ts";
import { launchBrowser } from "../support/browser.ts";
import { accessibilityFaults, signedInPage } from "../support/browser-pages.ts";

let service: TestService;
let browser: Browser;
let baseUrl: string;
let receiver: Server;
let answers = 500;
const received: string[] = [];

beforeAll(async () => {
  service = await startService({ environment: { WEBHOOKS_INTERNAL: "true" } });
  const address = await service.app.listen({ port: 0, host: "127.0.0.1" });
  baseUrl = address.replace("127.0.0.1", "localhost");
  browser = await launchBrowser();
  receiver = createServer((request, reply) => {
    request.on("data", (part) => received.push(String(part)));
    request.on("end", () => reply.writeHead(answers).end());
  });
  await new Promise<void>((resolve) => receiver.listen(0, "127.0.0.1", resolve));
});
afterAll(async () => {
  await browser?.close();
  receiver.close();
  await service.stop();
});

const asOwner = (path: string) => signedInPage(browser, baseUrl, path, { role: "owner" });
const isAccessible = async (page: Page) => expect(await accessibilityFaults(page)).toEqual([]);

test("the firm is told what it is, what stands on its documents, and where it starts", async () => {
  const page = await asOwner("/firm");
  await page.getByLabel("Name", { exact: true }).fill("Alder & Sons");
  await page.getByLabel("Base: latitude").fill("52,1");
  await page.getByLabel("Base: longitude").fill("-1.4");
  await page.getByLabel("Postal address").fill("1 Kiln Lane\nThornbeck");
  await page.getByLabel("Colour of headings").fill("#ffee99");
  await page.locator("main button.main").click();
  expect(await page.locator("main").textContent()).toContain("is too light to be read");
  await isAccessible(page);
  expect(await page.getByLabel("Name", { exact: true }).inputValue()).toBe("Alder & Sons");
  await page.getByLabel("Colour of headings").fill("#103a70");
  await page.locator("main button.main").click();
  await page.getByRole("status").getByText("Kept.").waitFor();
  expect(await page.getByLabel("Base: latitude").inputValue()).toBe("52.1");
  const create = { width: 300, height: 100, channels: 3, background: "#336699" } as const;
  const buffer = await sharp({ create }).png().toBuffer();
  const picture = { name: "mark.png", mimeType: "image/png", buffer };
  await page.locator("#mark-file").setInputFiles(picture);
  await page.getByRole("button", { name: "Keep this mark" }).click();
  await page.getByAltText("The mark of Alder & Sons").waitFor();
  await isAccessible(page);
  await page.locator("#mark-file").setInputFiles({ ...picture, buffer: Buffer.from("no picture") });
  await page.getByRole("button", { name: "Keep this mark" }).click();
  await page.getByText("The file is not a whole JPEG, PNG or WebP picture.").waitFor();
  await page.context().close();
});

test("a key is made, shown once, opens what it names, and is revoked", async () => {
  const page = await asOwner("/api-keys");
  await page.getByText("No program has a key.").waitFor();
  await page.getByLabel("Name").fill("Dashboard");
  await page.getByRole("button", { name: "Make the key" }).click();
  await page.getByText("a key is for something").waitFor();
  await page.getByLabel("read fleet counts").check();
  await page.getByRole("button", { name: "Make the key" }).click();
  const token = await page.locator("code.secret").textContent();
  await isAccessible(page);
  const ask = () =>
    fetch(`${baseUrl}/api/v1/fleet/counts`, { headers: { authorization: `Bearer ${token}` } });
  expect((await ask()).status).toBe(200);
  await page.goto(`${baseUrl}/api-keys`);
  expect(await page.locator("code.secret").count()).toBe(0);
  await page.locator("summary", { hasText: "Revoke" }).click();
  await page.getByRole("button", { name: "Revoke Dashboard" }).click();
  await page.getByText(/revoked \d/).waitFor();
  await page.context().close();
});

test("a webhook is added, tried, seen to fail, and what failed is sent again", async () => {
  const { port } = receiver.address() as AddressInfo;
  const page = await asOwner("/webhooks");
  await page.getByLabel("Address").fill(`http://127.0.0.1:${port}/in`);
  await page.getByRole("button", { name: "Add the webhook" }).click();
  await page.getByText("choose at least one kind of event").waitFor();
  await page.getByLabel("a job was closed").check();
  await page.getByRole("button", { name: "Add the webhook" }).click();
  expect(await page.locator("code.secret").textContent()).toMatch(/^whsec_/);
  await page.getByRole("link", { name: "/in" }).click();
  await page.getByRole("button", { name: "Send a trial" }).click();
  await page.getByText("A trial is on its way.").waitFor();
  const send = (internal: string) =>
    sendWebhooks(
      service.db,
      readConfig({ DATA_DIR: ".data/tests", WEBHOOKS_INTERNAL: internal }, ".data/tests"),
      () => new Date(),
    );
  await send("false");
  await page.reload();
  expect(await page.locator("main").textContent()).toContain("is not a public address");
  await isAccessible(page);
  answers = 200;
  await page.getByRole("button", { name: "Replace the secret" }).click();
  await page.getByText("For a day both sign what is sent.").waitFor();
  await page.getByLabel("Use this webhook").uncheck();
  await page.locator("section", { hasText: "Use this webhook" }).getByText("Save").click();
  await page.getByText("Nothing is sent. Mend the receiver").waitFor();
  await page.getByRole("button", { name: "Send a trial" }).click();
  await page.getByText("The webhook is disabled. Use it again").waitFor();
  await page.getByLabel("Failed since").fill("2026-01-02");
  await page.getByLabel("Until the end of").fill("2026-01-01");
  await page.getByRole("button", { name: "Send what failed again" }).click();
  await page.getByText("is before the first").waitFor();
  await page.getByLabel("Until the end of").fill("2026-01-03");
  await page.getByRole("button", { name: "Send what failed again" }).click();
  await page.getByText("There is nothing to send again.").waitFor();
  await page.context().close();
});

test("what was changed of a person is said, stays to be read, and is taken back", async () => {
  const page = await asOwner(`/people/${service.firm.people.auditor.id}`);
  await page.getByText("Nobody has changed anything here.").waitFor();
  await page.getByLabel("manager").check();
  await page.getByRole("button", { name: "Save" }).click();
  const banner = page.getByRole("status");
  await banner.getByText("Roles: manager, auditor").waitFor();
  await isAccessible(page);
  await banner.getByRole("button", { name: "Undo" }).click();
  await banner.getByText("Roles: auditor").waitFor();
  expect(await page.getByLabel("manager").isChecked()).toBe(false);
  await page.getByLabel("Signs in").uncheck();
  await page.getByRole("button", { name: "Save" }).click();
  await banner.getByText("Signs in: no").waitFor();
  await banner.getByRole("button", { name: "Undo" }).click();
  await banner.getByText("Signs in: yes").waitFor();
  await page.context().close();
});

test("only the owner has these pages", async () => {
  const page = await signedInPage(browser, baseUrl, "/", { role: "office" });
  expect(await page.getByRole("link", { name: "Keys for programs" }).count()).toBe(0);
  for (const path of ["/firm", "/api-keys", "/webhooks"]) {
    expect((await page.request.get(baseUrl + path)).status()).toBe(403);
  }
  await page.context().close();
});
