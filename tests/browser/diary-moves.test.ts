import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { DiaryStage } from "../support/diary-stage.ts";

let stage: DiaryStage;
beforeAll(async () => {
  stage = await DiaryStage.open();
});
afterAll(async () => stage?.close());
beforeEach(async () => stage.clear());

describe("a visit is moved", () => {
  test("and stretched with the keyboard alone, and undone", async () => {
    await stage.book("09:00", "11:00");
    const page = await stage.page();
    const visit = page.locator("[data-movable]");
    await visit.focus();
    for (const key of ["ArrowDown", "ArrowDown", "ArrowRight", "PageDown", "Shift+ArrowDown"]) {
      await page.keyboard.press(key);
    }
    const said = await page.locator("#diary-says").textContent();
    expect(said).toBe("Wed 2 Dec, 09:30 to 11:45, Fell. Enter keeps, Escape gives up.");
    await page.keyboard.press("Escape");
    expect(await stage.booked()).toEqual(["Dale 12-01T09:00 to 12-01T11:00"]);
    await page.keyboard.press("ArrowDown");
    await page.keyboard.press("ArrowRight");
    await page.keyboard.press("PageDown");
    await page.keyboard.press("Shift+ArrowDown");
    await page.keyboard.press("Enter");
    await page.getByText("is moved.").waitFor();
    expect(await stage.booked()).toEqual(["Fell 12-02T09:15 to 12-02T11:30"]);
    await page.getByRole("button", { name: "Undo" }).press("Enter");
    await page.getByText("is moved.").waitFor();
    expect(await stage.booked()).toEqual(["Dale 12-01T09:00 to 12-01T11:00"]);
    await page.context().close();
  });

  test("and stretched with the mouse", async () => {
    await stage.book("09:00", "11:00");
    const page = await stage.page();
    const drag = async (x: number, y: number, by: { x: number; y: number }) => {
      await page.mouse.move(x, y);
      await page.mouse.down();
      await page.mouse.move(x + by.x, y + by.y, { steps: 8 });
      await page.mouse.up();
      await page.getByText("is moved.").waitFor();
    };
    let box = await page.locator("[data-movable]").boundingBox();
    await drag((box?.x ?? 0) + 20, (box?.y ?? 0) + 12, { x: 0, y: 28 });
    expect(await stage.booked()).toEqual(["Dale 12-01T10:00 to 12-01T12:00"]);
    box = await page.locator("[data-movable]").boundingBox();
    const bottom = (box?.y ?? 0) + (box?.height ?? 0);
    await drag((box?.x ?? 0) + 20, bottom - 4, { x: 0, y: 28 });
    expect(await stage.booked()).toEqual(["Dale 12-01T10:00 to 12-01T13:00"]);
    await page.context().close();
  });

  test("onto another one's place is refused, and the form holds what was wanted", async () => {
    const other = await stage.addJob();
    await stage.book("13:00", "15:00", "Fell", other);
    await stage.book("09:00", "11:00");
    const page = await stage.page();
    await page.locator("[data-movable]", { hasText: "09:00" }).focus();
    await page.keyboard.press("PageDown");
    for (let quarter = 0; quarter < 16; quarter += 1) await page.keyboard.press("ArrowDown");
    await page.keyboard.press("Enter");
    expect(await page.getByRole("alert").textContent()).toContain("13:00");
    expect(await page.getByLabel("From", { exact: true }).inputValue()).toBe("13:00");
    expect((await stage.booked()).toSorted()).toEqual([
      "Dale 12-01T09:00 to 12-01T11:00",
      "Fell 12-01T13:00 to 12-01T15:00",
    ]);
    await page.context().close();
  });
});
