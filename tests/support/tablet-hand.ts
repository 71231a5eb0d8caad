// A person at the tablet's page: signs in, taps, types, takes photos, draws.
import type { BrowserContext, Page } from "playwright-core";
import sharp from "sharp";
import { PASSWORD } from "./app.ts";

/** Opens the page, signs in, and waits until it would open without signal too. */
export async function openTablet(context: BrowserContext, baseUrl: string): Promise<Page> {
  const page = await context.newPage();
  await page.goto(`${baseUrl}/tablet/`);
  await page.getByLabel("E-mail address").fill("installer@alder.example");
  await page.getByLabel("Password").fill(PASSWORD);
  await page.getByRole("button", { name: "Sign in" }).click();
  await page.getByRole("heading", { name: "Visits" }).waitFor();
  await page.evaluate("navigator.serviceWorker.ready.then(() => true)");
  return page;
}

/** A picture as a camera makes it, of one colour. */
export const cameraPicture = (red = 120): Promise<Buffer> =>
  sharp({
    create: { width: 3000, height: 1500, channels: 3, background: { r: red, g: 90, b: 60 } },
  })
    .jpeg()
    .toBuffer();

export class Hand {
  readonly page: Page;

  constructor(page: Page) {
    this.page = page;
  }

  async at(title: string): Promise<void> {
    await this.page.locator("main h1", { hasText: title }).waitFor({ timeout: 8000 });
  }

  async tap(name: string | RegExp): Promise<void> {
    await this.page.getByRole("button", { name, exact: typeof name === "string" }).click();
  }

  /** Types on the pad of the page. */
  async number(text: string): Promise<void> {
    const names: Record<string, string> = { ".": "Decimal point" };
    for (const key of text) await this.tap(names[key] ?? key);
  }

  async instrument(reference: string): Promise<void> {
    await this.page.getByRole("button", { name: new RegExp(reference) }).click();
  }

  /** Keeps, and goes on once the verdict says it is met. */
  async keepAndGoOn(action = "Keep"): Promise<void> {
    await this.tap(action);
    await this.page.getByText("Kept. Met").waitFor({ timeout: 8000 });
    await this.tap("Next");
  }

  async photo(picture: Buffer): Promise<void> {
    const file = { name: "camera.jpg", mimeType: "image/jpeg", buffer: picture };
    await this.page.locator(".photos input[type=file]").first().setInputFiles(file);
    await this.page.getByRole("img", { name: "Photo 1" }).waitFor();
  }

  async draw(): Promise<void> {
    const glass = this.page.locator("canvas.glass");
    await glass.scrollIntoViewIfNeeded();
    const box = await glass.boundingBox();
    if (!box) throw new Error("there is no glass to draw on");
    const { mouse } = this.page;
    await mouse.move(box.x + 30, box.y + 40);
    await mouse.down();
    for (let step = 1; step <= 8; step += 1) {
      await mouse.move(box.x + 30 + step * 15, box.y + 40 + (step % 2) * 40);
    }
    await mouse.up();
    await this.page.getByRole("button", { name: "Sign anew" }).waitFor();
  }
}
