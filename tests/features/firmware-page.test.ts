import { afterAll, beforeAll, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { addFleet, postTarget } from "../support/fleet.ts";

let service: TestService;
const NOW = new Date("2026-11-25T12:00:00Z");
beforeAll(async () => {
  service = await startService({ now: () => NOW });
});
afterAll(() => service.stop());

const page = (path: string) =>
  service.as(service.firm.people.manager).get(path).set("accept", "text/html");

test("the page of the due list tells what is due, what is over and what nobody knows", async () => {
  const [due, over] = [
    await addFleet(service, "semver", ["1.0.0", null, "spring build"]),
    await addFleet(service, "semver", ["3.0.0"]),
  ];
  await postTarget(service, { modelId: due.modelId, level: "2.0.0" }, "2026-11-26");
  await postTarget(service, { modelId: over.modelId, level: "4.0.0" }, "2026-11-23");
  const all = await page("/firmware");
  expect([all.status, all.headers["content-type"]]).toEqual([200, "text/html; charset=utf-8"]);
  for (const text of ["1 day left", "2 days over", "read the level", "compare by hand"]) {
    expect(all.text).toContain(text);
  }
  expect(all.text).toContain("2 units at 2 sites below target; 1 past the day;");
  expect(all.text).toContain("2 units with a level that is unknown or cannot be ordered");
  const overdue = await page("/firmware?overdue=true");
  expect(overdue.text).toContain("2 days over");
  expect(overdue.text).not.toContain("1 day left");
});

/** Over all pages of the address: the site of each row that begins one, and its first day. */
async function walk(path: string): Promise<{ site: string; day: string }[]> {
  const found: { site: string; day: string }[] = [];
  for (let at: string | undefined = path; at; ) {
    const { text, status } = await page(at);
    expect(status).toBe(200);
    for (const row of text.split("<tr>").slice(2)) {
      const site = /href="\/sites\/([^"]+)"/.exec(row)?.[1];
      const day = /(\d+) Nov 2026/.exec(row)?.[1];
      if (site && day) found.push({ site, day: day.padStart(2, "0") });
    }
    at = /href="([^"]+)" rel="next"/.exec(text)?.[1];
    at = at?.replaceAll("&amp;", "&").replaceAll("&#x3D;", "=");
  }
  return found;
}

test("by day and by site the due list is the same over its pages, turned round", async () => {
  const levels = Array.from({ length: 25 }, () => "1.0.0");
  const [late, soon] = [
    await addFleet(service, "semver", levels),
    await addFleet(service, "semver", levels),
  ];
  await postTarget(service, { modelId: soon.modelId, level: "2.0.0" }, "2026-11-28");
  await postTarget(service, { modelId: late.modelId, level: "2.0.0" }, "2026-11-20");
  const all = (await walk("/firmware")).map(({ site }) => site).toSorted();
  expect(all.length).toBeGreaterThanOrEqual(50);
  for (const column of ["due", "site"]) {
    const [up, down] = [
      await walk(`/firmware?sort=${column}`),
      await walk(`/firmware?sort=-${column}`),
    ];
    expect(up.map(({ site }) => site).toSorted()).toEqual(all);
    expect(down).toEqual(up.toReversed());
  }
  const days = (await walk("/firmware?sort=due")).map(({ day }) => day);
  expect(days).toEqual(days.toSorted());
  expect(new Set(days).size).toBeGreaterThan(1);
});
