// A person who works the tablet's page with the keyboard alone.
import type { Page } from "playwright-core";

const PRESSES_MOST = 60;
const FRAMES_MOST = 300;

/** What the focus is on: its accessible name, or its words. */
const FOCUSED = `(() => {
  const at = document.activeElement;
  if (!at || at === document.body) return "";
  const label = at.getAttribute("aria-label") ?? at.labels?.[0]?.textContent ?? at.textContent;
  return (label ?? "").replace(/\\s+/g, " ").trim();
})()`;

export class Keys {
  readonly page: Page;

  constructor(page: Page) {
    this.page = page;
  }

  async at(title: string): Promise<void> {
    await this.page.locator("main h1", { hasText: title }).waitFor({ timeout: 8000 });
    // The view has taken the focus to its heading, so the way starts there.
    await this.until("document.activeElement?.tagName === 'H1'");
  }

  /** Presses Tab until the focus is on it. */
  async to(name: RegExp): Promise<void> {
    const seen: string[] = [];
    for (let press = 0; press < PRESSES_MOST; press += 1) {
      await this.page.keyboard.press("Tab");
      const focused = await this.page.evaluate<string>(FOCUSED);
      if (name.test(focused)) return;
      seen.push(focused);
    }
    throw new Error(`${PRESSES_MOST} Tabs did not lead to ${name}, but to: ${seen.join(" | ")}`);
  }

  /** Looks once a frame: the page's policy forbids the library's own way of waiting. */
  async until(expression: string): Promise<void> {
    for (let frame = 0; frame < FRAMES_MOST; frame += 1) {
      if (await this.page.evaluate(expression)) return;
      await this.page.evaluate("new Promise((resolve) => requestAnimationFrame(resolve))");
    }
    throw new Error(`never came true: ${expression}`);
  }

  press(key: string): Promise<void> {
    return this.page.keyboard.press(key);
  }

  type(text: string): Promise<void> {
    return this.page.keyboard.type(text);
  }

  /** The focus is on "Next" once the answer is kept: Enter goes on. */
  async goOn(): Promise<void> {
    await this.page.getByText("Kept. Met").waitFor({ timeout: 8000 });
    await this.until(`${FOCUSED} === "Next"`);
    await this.press("Enter");
  }

  async keep(name = /^Keep$/): Promise<void> {
    await this.to(name);
    await this.press("Enter");
    await this.goOn();
  }
}
