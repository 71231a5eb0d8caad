// Reminders of days to register by and of warranties that end: each once, to office and manager.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { connect } from "../../src/db/client.ts";
import { inFirm } from "../../src/db/scope.ts";
import { editMailSettings, readMailSettings } from "../../src/features/mail/settings-store.ts";
import { remindOfWarranties } from "../../src/runs/warranty-reminders.ts";
import { startService, type TestService } from "../support/app.ts";
import { mailConfig } from "../support/smtp.ts";
import { addModel, addSite, install, type Made, receive } from "../support/stock.ts";

const PERIOD = { years: 2, registerWithinDays: 30, evidenceNeeded: false };
let service: TestService;
let site: Made;
let model: Made;
beforeAll(async () => {
  service = await startService({ now: () => new Date("2026-11-25T09:00:00Z") });
  model = await addModel(service);
  site = await addSite(service);
  await service
    .as(service.firm.people.manager)
    .post(`/api/v1/product-models/${model.id}/warranty-terms`)
    .send({ ...PERIOD, appliesFrom: "2020-01-01" });
});
afterAll(() => service.stop());

const at = (text: string) => new Date(text);
const remind = (now: Date, db = service.db) => remindOfWarranties(db, mailConfig({}), now);
const inOwnFirm = <T>(work: Parameters<typeof inFirm<T>>[2]) =>
  inFirm(service.db, service.firm.firmId, work);
const notices = () =>
  inOwnFirm((tx) => tx.notice.findMany({ include: { person: true }, orderBy: { id: "asc" } }));
const commissioned = async (day: string): Promise<Made> => {
  const unit = await receive(service, model.id);
  await install(service, unit, site, { at: `${day}T10:00:00Z` });
  return unit;
};

describe("a reminder", () => {
  test("waits for its hour and for quiet hours to end, and then tells each day once", async () => {
    // 30 days to register: until 9 December, which is fourteen days after 25 November.
    const soon = await commissioned("2026-11-09");
    const later = await commissioned("2026-11-10");
    expect(await remind(at("2026-11-25T06:59:00Z"))).toEqual({ units: 0, notices: 0 });
    const quiet = { quietFrom: "20:00", quietTo: "08:00" };
    await inOwnFirm(async (tx) =>
      editMailSettings(tx, (await readMailSettings(tx)).version, quiet),
    );
    expect(await remind(at("2026-11-25T07:30:00Z"))).toEqual({ units: 0, notices: 0 });
    expect(await remind(at("2026-11-25T08:00:00Z"))).toEqual({ units: 1, notices: 2 });
    expect(await remind(at("2026-11-25T12:00:00Z"))).toEqual({ units: 0, notices: 0 });
    const told = await notices();
    expect(told.map(({ person }) => person.name).sort()).toEqual([
      ...["manager person", "office person"],
    ]);
    const [{ body, subject } = { body: "", subject: "" }] = told;
    expect(subject).toBe("Warranty: 1 unit to register, 0 warranties end");
    expect(body).toContain(soon.serial);
    expect(body).not.toContain(later.serial);
    expect(await remind(at("2026-11-26T08:00:00Z"))).toEqual({ units: 1, notices: 2 });
    expect((await notices()).at(-1)?.body).toContain(later.serial);
    expect(await remind(at("2026-11-27T08:00:00Z"))).toEqual({ units: 0, notices: 0 });
  });

  test("is told once by two instances at the same moment", async () => {
    // Two years: until 20 January 2027, fifty-four days after 27 November.
    const ending = await commissioned("2025-01-20");
    const other = connect({ url: service.appUrl, poolSize: 2 });
    try {
      const moment = at("2026-11-27T09:00:00Z");
      const office = service.as(service.firm.people.office);
      const registration = { registeredOn: "2025-01-25", reference: "R-1" };
      await office.put(`/api/v1/units/${ending.id}/warranty/registration`).send(registration);
      const both = await Promise.all([remind(moment), remind(moment, other)]);
      expect(both.map(({ units }) => units).sort()).toEqual([0, 1]);
    } finally {
      await other.close();
    }
    expect((await notices()).at(-1)?.body).toMatch(
      new RegExp(`20 Jan 2027: warranty ends, CAIRN-\\d+ ${ending.serial}`),
    );
  });

  test("says nothing of the end of a warranty that is lost already", async () => {
    await commissioned("2025-01-25");
    expect(await remind(at("2026-11-30T09:00:00Z"))).toEqual({ units: 0, notices: 0 });
  });
});
