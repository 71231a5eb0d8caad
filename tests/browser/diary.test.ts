import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { startService, type TestService } from "../support/app.ts";
import { launchBrowser } from "../support/browser.ts";
import { accessibilityFaults, consoleFaults, signedInPage } from "../support/browser-pages.ts";
import { addJobRows } from "../support/rows.ts";

const NOW = new Date("2026-11-25T09:00:00Z");
const PLAN = {
  ...{ schema: "plan/1", title: "Look-over", decisionRule: "simple" },
  stages: [{ id: "s", title: "S", items: [{ id: "a", kind: "confirm", title: "A" }] }],
};
let service: TestService;
let browser: Browser;
let baseUrl: string;
let jobId: string;
let crews: Record<"Dale" | "Fell", string>;

const office = () => service.as(service.firm.people.office);

beforeAll(async () => {
  service = await startService({ now: () => NOW });
  const addCrew = async (name: string, personId: string) =>
    (
      await office()
        .post("/api/v1/crews")
        .send({ name, personIds: [personId] })
    ).body.id;
  const second = await inFirm(service.db, service.firm.firmId, (tx) =>
    tx.person.create({
      data: {
        ...{ firmId: tx.firmId, id: crypto.randomUUID(), email: "second@alder.example" },
        ...{ name: "Second installer", roles: ["installer"], passwordHash: "-" },
      },
    }),
  );
  crews = {
    Dale: await addCrew("Dale", service.firm.people.installer.id),
    Fell: await addCrew("Fell", second.id),
  };
  const address = await service.app.listen({ port: 0, host: "127.0.0.1" });
  baseUrl = address.replace("127.0.0.1", "localhost");
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser?.close();
  await service.stop();
});
beforeEach(async () => {
  await inFirm(service.db, service.firm.firmId, async (tx) => {
    await tx.visitBooking.deleteMany({ where: { firmId: tx.firmId } });
    await tx.visit.updateMany({ where: { firmId: tx.firmId }, data: { state: "cancelled" } });
    await tx.job.updateMany({ where: { firmId: tx.firmId }, data: { state: "cancelled" } });
  });
  ({ jobId } = await addJobRows(service, PLAN));
});

const book = async (from: string, to: string, crew: "Dale" | "Fell" = "Dale", job = jobId) => {
  const local = { day: "2026-12-01", from, to };
  const fields = { crewId: crews[crew], local };
  const reply = await office().post(`/api/v1/jobs/${job}/visits`).send(fields);
  expect(reply.status, JSON.stringify(reply.body)).toBe(201);
  return reply.body.id as string;
};
const booked = () =>
  inFirm(service.db, service.firm.firmId, async (tx) => {
    const where = { firmId: tx.firmId, state: "booked" };
    const rows = await tx.visit.findMany({ where, include: { crew: true } });
    return rows.map(({ crew, startsAt, endsAt }) => {
      const [from, to] = [startsAt, endsAt].map((at) => at.toISOString().slice(5, 16));
      return `${crew.name} ${from} to ${to}`;
    });
  });
const open = (more = "", options = {}) =>
  signedInPage(browser, baseUrl, `/diary?day=2026-12-01${more}`, options);
const status = (page: Page) => page.getByRole("status").first();

describe("a job is placed", () => {
  test("at the first free place in one click, and that is undone in one more", async () => {
    const page = await open();
    await page.getByRole("link", { name: /Find a place/ }).click();
    await page
      .getByRole("button", { name: /^Book Dale on/ })
      .first()
      .click();
    await page.getByText("is booked.").waitFor();
    expect(await booked()).toHaveLength(1);
    await page.getByRole("button", { name: "Undo" }).click();
    await page.getByText("is called off.").waitFor();
    expect(await booked()).toEqual([]);
    await page.getByRole("button", { name: "Undo" }).click();
    await page.getByText("is booked.").waitFor();
    expect(await booked()).toHaveLength(1);
    await page.context().close();
  });

  test("by a form, and a place that is taken is refused with who and when", async () => {
    const other = await addJobRows(service, PLAN);
    await book("09:00", "12:00", "Dale", other.jobId);
    const page = await open(`&job=${jobId}`);
    await page.getByLabel("Crew", { exact: true }).selectOption({ label: "Dale" });
    await page.getByLabel("Day", { exact: true }).fill("2026-12-01");
    await page.getByLabel("From", { exact: true }).fill("11:00");
    await page.getByLabel("To", { exact: true }).fill("13:00");
    await page.locator("#at-hand button.main").click();
    const said = await page.getByRole("alert").textContent();
    expect(said).toContain("Dale");
    expect(said).toContain("2026-12-01 09:00");
    expect(await page.getByLabel("From", { exact: true }).inputValue()).toBe("11:00");
    expect(await accessibilityFaults(page)).toEqual([]);
    await page.getByLabel("From", { exact: true }).fill("12:00");
    await page.locator("#at-hand button.main").click();
    await page.getByText("is booked.").waitFor();
    expect(await booked()).toHaveLength(2);
    await page.context().close();
  });

  test("by dropping it onto a crew's day with the mouse", async () => {
    const page = await open();
    const faults = consoleFaults(page);
    await page.setViewportSize({ width: 1200, height: 1400 });
    const cell = page.locator('.slots[data-day="2026-12-02"][data-crew-name="Fell"]');
    const from = await page.locator("[data-job]").first().boundingBox();
    const to = await cell.boundingBox();
    if (!from || !to) throw new Error("nothing to drag");
    await page.mouse.move(from.x + 20, from.y + 10);
    await page.mouse.down();
    await page.mouse.move(to.x + 30, to.y + 7 * 8 + 3, { steps: 8 });
    await page.mouse.up();
    await page.getByText("is booked.").waitFor();
    // Two hours after the first one shown, which is the crew's first, 08:00.
    expect((await booked())[0]).toMatch(/^Fell 12-02T10:00 to/);
    expect(faults).toEqual([]);
    await page.context().close();
  });
});

describe("a visit is moved", () => {
  test("and stretched with the keyboard alone, and undone", async () => {
    await book("09:00", "11:00");
    const page = await open();
    const visit = page.locator("[data-movable]");
    await visit.focus();
    for (const key of ["ArrowDown", "ArrowDown", "ArrowRight", "PageDown", "Shift+ArrowDown"]) {
      await page.keyboard.press(key);
    }
    const said = await page.locator("#diary-says").textContent();
    expect(said).toBe("Wed 2 Dec, 09:30 to 11:45, Fell. Enter keeps, Escape gives up.");
    await page.keyboard.press("Escape");
    expect(await booked()).toEqual(["Dale 12-01T09:00 to 12-01T11:00"]);
    await page.keyboard.press("ArrowDown");
    await page.keyboard.press("ArrowRight");
    await page.keyboard.press("PageDown");
    await page.keyboard.press("Enter");
    await page.getByText("is moved.").waitFor();
    expect(await booked()).toEqual(["Fell 12-02T09:15 to 12-02T11:15"]);
    await page.getByRole("button", { name: "Undo" }).press("Enter");
    await page.getByText("is moved.").waitFor();
    expect(await booked()).toEqual(["Dale 12-01T09:00 to 12-01T11:00"]);
    await page.context().close();
  });

  test("and stretched with the mouse", async () => {
    await book("09:00", "11:00");
    const page = await open();
    const drag = async (x: number, y: number, by: { x: number; y: number }) => {
      await page.mouse.move(x, y);
      await page.mouse.down();
      await page.mouse.move(x + by.x, y + by.y, { steps: 8 });
      await page.mouse.up();
      await page.getByText("is moved.").waitFor();
    };
    let box = await page.locator("[data-movable]").boundingBox();
    await drag((box?.x ?? 0) + 20, (box?.y ?? 0) + 12, { x: 0, y: 28 });
    expect(await booked()).toEqual(["Dale 12-01T10:00 to 12-01T12:00"]);
    box = await page.locator("[data-movable]").boundingBox();
    const bottom = (box?.y ?? 0) + (box?.height ?? 0);
    await drag((box?.x ?? 0) + 20, bottom - 4, { x: 0, y: 28 });
    expect(await booked()).toEqual(["Dale 12-01T10:00 to 12-01T13:00"]);
    await page.context().close();
  });

  test("onto another one's place is refused, and the form holds what was wanted", async () => {
    const other = await addJobRows(service, PLAN);
    await book("13:00", "15:00", "Fell", other.jobId);
    await book("09:00", "11:00");
    const page = await open();
    await page.locator("[data-movable]", { hasText: "09:00" }).focus();
    await page.keyboard.press("PageDown");
    for (let quarter = 0; quarter < 16; quarter += 1) await page.keyboard.press("ArrowDown");
    await page.keyboard.press("Enter");
    expect(await page.getByRole("alert").textContent()).toContain("13:00");
    expect(await page.getByLabel("From", { exact: true }).inputValue()).toBe("13:00");
    expect((await booked()).toSorted()).toEqual([
      "Dale 12-01T09:00 to 12-01T11:00",
      "Fell 12-01T13:00 to 12-01T15:00",
    ]);
    await page.context().close();
  });
});

test("of two browsers that book one place exactly one wins, and the other reads why", async () => {
  const other = await addJobRows(service, PLAN);
  const pages = await Promise.all([open(`&job=${jobId}`), open(`&job=${other.jobId}`)]);
  for (const page of pages) {
    await page.getByLabel("Crew", { exact: true }).selectOption({ label: "Dale" });
    await page.getByLabel("Day", { exact: true }).fill("2026-12-03");
    await page.getByLabel("From", { exact: true }).fill("09:00");
    await page.getByLabel("To", { exact: true }).fill("12:00");
  }
  await Promise.all(pages.map((page) => page.locator("#at-hand button.main").click()));
  const answers = await Promise.all(
    pages.map(async (page) => {
      await page.locator(".note.good, .note.bad").first().waitFor();
      return (await page.locator(".note.good, .note.bad").first().textContent()) ?? "";
    }),
  );
  expect(answers.filter((text) => text.includes("is booked."))).toHaveLength(1);
  expect(answers.filter((text) => text.includes("Not booked."))[0]).toContain("Dale");
  expect(await booked()).toEqual(["Dale 12-03T09:00 to 12-03T12:00"]);
  for (const page of pages) await page.context().close();
});

test("an installer sees the week and moves nothing", async () => {
  await book("09:00", "11:00");
  const page = await open("", { role: "installer" });
  await page.getByText("09:00–11:00").waitFor();
  expect(await page.locator("[data-movable], [data-job], #diary-hand").count()).toBe(0);
  await page.context().close();
});

test.each([
  ["light", 1280, "crew"],
  ["dark", 1280, "person"],
  ["light", 320, "person"],
  ["dark", 320, "crew"],
] as const)("is accessible and fits, %s at %d px by %s", async (colorScheme, width, by) => {
  const visitId = await book("09:00", "11:00");
  const options = { colorScheme, viewport: { width, height: 900 } };
  const page = await open(`&by=${by}&visit=${visitId}`, options);
  expect(await accessibilityFaults(page)).toEqual([]);
  expect(await page.evaluate("document.documentElement.scrollWidth")).toBeLessThanOrEqual(width);
  expect(await status(page).count()).toBe(1);
  await page.context().close();
});
