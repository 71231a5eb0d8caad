// The tablet's page as it stands on the screen, against WCAG 2.2 AA by axe-core, in every look, at
// 320 px and at 200 % zoom (WCAG 1.4.4 and 1.4.10: 1280 px at 200 % are 640); targets of 48 px by
// our own measure (blueprint: more than the 44 px of WCAG 2.5.5 AAA).
import { mkdirSync } from "node:fs";
import axe from "axe-core";
import type { Page } from "playwright-core";

const OUTPUT = new URL("../../.output/tablet/", import.meta.url).pathname;
const SMALL = [
  { name: "320", width: 320, height: 640 },
  { name: "zoom200", width: 640, height: 400 },
] as const;
const RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];

/** What axe-core finds wrong, each with its place. */
async function violations(page: Page): Promise<string[]> {
  await page.evaluate(`if (!window.axe) { ${axe.source} }`);
  const options = { runOnly: RULES, rules: { "target-size": { enabled: true } } };
  const result = await page.evaluate<axe.AxeResults>(`axe.run(${JSON.stringify(options)})`);
  return result.violations.flatMap(({ id, nodes }) =>
    nodes.map(({ html, failureSummary }) => `${id}: ${html.slice(0, 160)} ${failureSummary}`),
  );
}

/** Controls that offer a smaller target than 48 px; a label or a card around one is its target. */
const SMALL_TARGETS = `[...document.querySelectorAll("a, button, summary, input, select, textarea")]
  .flatMap((control) => {
    const target = control.closest(".choice, .option, .camera, li.row, li.card") ?? control;
    const { width, height } = target.getBoundingClientRect();
    if (control.matches(".skip") || width === 0) return [];
    const isSmall = width < 48 || height < 48;
    return isSmall ? [control.outerHTML.slice(0, 120) + width + "x" + height] : [];
  })`;

const ARRIVED = `Promise.allSettled(
  document.getAnimations().map((one) => one.finished),
).then(() => true)`;

const LOOKS = ["light", "dark", "sun"] as const;

/**
 * Whatever is wrong with the page as it stands.
 * @param looks all of them, where a view of its own is looked at
 */
export async function accessFaults(
  page: Page,
  name: string,
  looks: readonly (typeof LOOKS)[number][] = LOOKS,
): Promise<string[]> {
  mkdirSync(OUTPUT, { recursive: true });
  const faults: string[] = [];
  for (const look of looks) {
    await page.evaluate(`document.documentElement.dataset.look = "${look}"`);
    for (const size of SMALL) {
      await page.setViewportSize(size);
      const found = [...(await layoutFaults(page, size.width)), ...(await axeFaults(page, size))];
      faults.push(...found.map((fault) => `${look}, ${size.name}: ${fault}`));
      await page.setViewportSize(size);
      const path = `${OUTPUT}${name}-${look}-${size.name}.png`;
      await page.screenshot({ path, fullPage: true });
    }
  }
  await page.setViewportSize({ width: 412, height: 860 });
  return faults;
}

async function layoutFaults(page: Page, widthPx: number): Promise<string[]> {
  // What fades in has its contrast and its size once it has arrived.
  await page.evaluate(ARRIVED);
  const width = await page.evaluate<number>("document.documentElement.scrollWidth");
  const small = await page.evaluate<string[]>(SMALL_TARGETS);
  const wide = width > widthPx ? [`${width} px wide`] : [];
  return [...wide, ...small.map((target) => `small target: ${target}`)];
}

/** As high as the page: axe takes what has to be scrolled from under the actions for hidden. */
async function axeFaults(page: Page, size: { width: number; height: number }): Promise<string[]> {
  const height = await page.evaluate<number>("document.documentElement.scrollHeight");
  await page.setViewportSize({ width: size.width, height: Math.max(height, size.height) });
  return violations(page);
}
