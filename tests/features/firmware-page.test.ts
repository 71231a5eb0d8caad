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
