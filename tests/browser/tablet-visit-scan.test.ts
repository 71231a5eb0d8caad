// Serials off photos of labels, in the browser and without signal. The codes are drawn by another
// part of the decoder's library, in open symbologies (ISO/IEC 18004 QR Code, ISO/IEC 16022 Data
// Matrix).
import { readFileSync } from "node:fs";
import type { Browser } from "playwright-core";
import sharp from "sharp";
import { afterAll, beforeAll, expect, test } from "vitest";
import { prepareZXingModule, writeBarcode } from "zxing-wasm/writer";
import { startService, type TestService } from "../support/app.ts";
import { launchBrowser } from "../support/browser.ts";
import { Hand, openTablet } from "../support/tablet-hand.ts";
import { addTabletVisit, type TabletVisitRows } from "../support/tablet-visit.ts";

let service: TestService;
let browser: Browser;
let baseUrl: string;
let visit: TabletVisitRows;

beforeAll(async () => {
  const wasm = new URL(
    "../../node_modules/zxing-wasm/dist/writer/zxing_writer.wasm",
    import.meta.url,
  );
  const { buffer } = new Uint8Array(readFileSync(wasm));
  prepareZXingModule({ overrides: { wasmBinary: buffer } });
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

/** A photo of a label with these texts as codes, one below the other. */
async function labelWith(...texts: string[]): Promise<Buffer> {
  const codes = await Promise.all(
    texts.map(async (text, index) => {
      const format = index % 2 === 0 ? "QRCode" : "DataMatrix";
      const { svg, error } = await writeBarcode(text, { format, scale: 6 });
      if (error) throw new Error(error);
      const input = await sharp(Buffer.from(svg))
        .resize(360, 360, { kernel: "nearest" })
        .toBuffer();
      return { input, left: 220, top: 120 + index * 520 };
    }),
  );
  const size = { width: 800, height: 120 + texts.length * 520, channels: 3 } as const;
  return sharp({ create: { ...size, background: "#fff" } })
    .composite(codes)
    .jpeg()
    .toBuffer();
}

test("one serial on a label is taken, of several one is picked, and none is told", async () => {
  const context = await browser.newContext({ viewport: { width: 412, height: 860 } });
  const page = await openTablet(context, baseUrl);
  await page.getByRole("link", { name: "Install two packs" }).waitFor();
  await context.setOffline(true);
  const hand = new Hand(page);
  await page.evaluate(`location.hash = "#/job/${visit.jobId}/item/serial/${visit.unitIds[0]}"`);
  await hand.at("Serial number");
  const scan = async (...texts: string[]): Promise<void> => {
    const file = { name: "label.jpg", mimeType: "image/jpeg", buffer: await labelWith(...texts) };
    await page.locator(".camera", { hasText: "Scan" }).locator("input").setInputFiles(file);
  };
  const field = page.getByLabel("Serial number");

  await scan();
  await page.getByText("No code was found in the picture.").last().waitFor();

  const [first, second] = visit.serials as [string, string];
  await scan(first);
  await page.getByText(`Read ${first}.`).waitFor();
  expect(await field.inputValue()).toBe(first);

  await field.fill("");
  await scan(second, first);
  await page.getByText("Several serials are on the label. Which one?").waitFor();
  expect(await field.inputValue()).toBe("");
  await hand.tap(first);
  await page.getByText(`Serial number ${first} is the one on the job.`).waitFor();
  expect(await field.inputValue()).toBe(first);
  await hand.keepAndGoOn();
  await context.close();
}, 60_000);
