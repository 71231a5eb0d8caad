import { afterAll, beforeAll, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { sendFirmwareNotices } from "../../src/runs/firmware-notice.ts";
import { startService, type TestService } from "../support/app.ts";
import { mailConfig } from "../support/smtp.ts";

let service: TestService;
beforeAll(async () => {
  service = await startService();
  await inZone(service.firm.firmId, "Europe/London");
  await inZone((await service.addFirm("auckland")).firmId, "Pacific/Auckland");
  await inZone((await service.addFirm("new-york")).firmId, "America/New_York");
  await inZone((await service.addFirm("lord-howe")).firmId, "Australia/Lord_Howe");
});
afterAll(() => service.stop());

const inZone = (firmId: string, timeZone: string) =>
  inFirm(service.db, firmId, (tx) => tx.firm.update({ where: { id: firmId }, data: { timeZone } }));

/** What a look at all firms gives at that moment. */
const given = async (at: string) => {
  const options = { now: new Date(at), waitForHour: true };
  const outcomes = await sendFirmwareNotices(service.db, mailConfig({}), options);
  return outcomes.map(({ firm, day }) => `${firm} ${day}`);
};

test("each firm has its day's notice once, at seven of its own clock", async () => {
  expect(await given("2027-03-13T17:59:00Z")).toEqual(["alder 2027-03-13", "new-york 2027-03-13"]);
  expect(await given("2027-03-13T18:00:00Z")).toEqual(["auckland 2027-03-14"]);
  expect(await given("2027-03-13T20:00:00Z")).toEqual(["lord-howe 2027-03-14"]);
  expect(await given("2027-03-14T07:00:00Z")).toEqual(["alder 2027-03-14"]);
  // 2027-03-14: New York's clocks go forward, seven is an hour earlier in UTC than the day before.
  expect(await given("2027-03-14T10:55:00Z")).toEqual([]);
  expect(await given("2027-03-14T11:00:00Z")).toEqual(["new-york 2027-03-14"]);
  // 2027-04-04: Auckland's go back an hour, Lord Howe's half an hour.
  expect(await given("2027-04-03T18:55:00Z")).toEqual(["alder 2027-04-03", "new-york 2027-04-03"]);
  expect(await given("2027-04-03T19:00:00Z")).toEqual(["auckland 2027-04-04"]);
  expect(await given("2027-04-03T20:25:00Z")).toEqual([]);
  expect(await given("2027-04-03T20:30:00Z")).toEqual(["lord-howe 2027-04-04"]);
  expect(await given("2027-04-03T20:35:00Z")).toEqual([]);
});
