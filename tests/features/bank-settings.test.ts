// Figures: the address is the pack's place less one and the last pack ends the chain, as the map
// below says; what a map means is checked against hand-written tables in tests/domain/bank.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { addBank as addBankTo, SWITCH_MAP as MAP, mapOf, protocol } from "../support/bank-rows.ts";
import { pointersOf } from "../support/replies.ts";
import { addModel, install, receive } from "../support/stock.ts";

let service: TestService;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.stop());

const office = () => service.as(service.firm.people.office);

const addBank = (map: object | null, places: number[], fields: object = {}) =>
  addBankTo(service, map, places, fields);
const settings = (bank: { id: string }, query = "") =>
  office().get(`/api/v1/banks/${bank.id}/settings${query}`);

describe("the settings of a bank", () => {
  test("say for each pack its serial, place, switch positions and address", async () => {
    const bank = await addBank(MAP, [1, 2, 3]);
    const reply = await settings(bank);
    expect(reply.status, JSON.stringify(reply.body)).toBe(200);
    const row = (at: number, dial: string, end: string) => ({
      unitId: bank.units[at]!.id,
      serial: bank.units[at]!.serial,
      position: at + 1,
      settings: [
        { switch: "dial", position: dial },
        { switch: "end", position: end },
      ],
      address: Number(dial),
    });
    expect(reply.body.packs).toEqual([row(0, "0", "off"), row(1, "1", "off"), row(2, "2", "on")]);
    expect(reply.body).toMatchObject({
      bankId: bank.id,
      protocol: { id: "can-b", name: "CAN-B" },
      source: "Cairn sheet, edition 2",
      clashes: [],
      gaps: [],
    });
    expect(reply.body.caution).toContain("prove dead");
  });

  test("follow the order of the places, not of the installation", async () => {
    const bank = await addBank(MAP, [2, 1]);
    const { packs } = (await settings(bank)).body;
    expect(packs.map(({ serial }: { serial: string }) => serial)).toEqual([
      bank.units[1]!.serial,
      bank.units[0]!.serial,
    ]);
  });

  test("are those of the protocol asked for, and refused for one that the map lacks", async () => {
    const bank = await addBank(MAP, [1, 2]);
    const { packs } = (await settings(bank, "?protocol=can-c")).body;
    expect(packs.map(({ address }: { address: number }) => address)).toEqual([2, 3]);
    const unknown = await settings(bank, "?protocol=can-z");
    expect([unknown.status, pointersOf(unknown)]).toEqual([422, ["/query/protocol"]]);
    expect(unknown.body.detail).toContain("can-b, can-c");
  });

  test("need a protocol named where the bank has none and the map has several", async () => {
    const several = await addBank(MAP, [1], { protocol: null });
    expect(pointersOf(await settings(several))).toEqual(["/query/protocol"]);
    const only = await addBank(mapOf(protocol("can-b", -1)), [1], { protocol: null });
    expect((await settings(only)).body.protocol.id).toBe("can-b");
  });

  test.each([
    ["no switch map", null, [1, 2], "has no switch map"],
    ["no packs", MAP, [], "has no packs yet"],
    ["a place left out", MAP, [1, 3], "do not run from 1 to 2"],
    ["more packs than the protocol takes", MAP, [1, 2, 3, 4, 5], "takes 1 to 4 packs, not 5"],
  ])("are refused with the way out: %s", async (_name, map, places, words) => {
    const bank = await addBank(map, places);
    for (const path of ["", ".svg"]) {
      const reply = await office().get(`/api/v1/banks/${bank.id}/settings${path}`);
      expect([reply.status, reply.body.detail]).toEqual([409, expect.stringContaining(words)]);
    }
  });

  test("are refused for a bank of two product models", async () => {
    const bank = await addBank(MAP, [1]);
    const model = await addModel(service, { switchMap: MAP });
    const pack = await install(service, await receive(service, model.id), bank.site);
    const packs = [bank.units[0]!, pack].map(({ id }, at) => ({ unitId: id, position: at + 1 }));
    await office().put(`/api/v1/banks/${bank.id}/packs`).set("if-match", '"2"').send({ packs });
    const reply = await settings(bank);
    expect([reply.status, reply.body.detail]).toEqual([
      409,
      expect.stringContaining("one product model"),
    ]);
  });

  test("are read by everyone of the firm, and not by another firm", async () => {
    const bank = await addBank(MAP, [1]);
    for (const role of ["owner", "installer", "manager", "auditor"] as const) {
      const client = service.as(service.firm.people[role]);
      expect((await client.get(`/api/v1/banks/${bank.id}/settings`)).status, role).toBe(200);
    }
    const other = await service.addFirm("birch");
    for (const path of ["settings", "settings.svg"]) {
      const reply = await service.as(other.people.office).get(`/api/v1/banks/${bank.id}/${path}`);
      expect(reply.status).toBe(404);
    }
  });

  test("are drawn: every switch of every pack, without inline style or script", async () => {
    const bank = await addBank(MAP, [1, 2, 3]);
    const reply = await office().get(`/api/v1/banks/${bank.id}/settings.svg`).buffer();
    expect(reply.headers["content-type"]).toBe("image/svg+xml; charset=utf-8");
    const svg = reply.body.toString() as string;
    expect(svg.match(/class="bank-rotary"/g)).toHaveLength(3);
    expect(svg.match(/class="bank-termination"/g)).toHaveLength(3);
    expect(svg).not.toMatch(/ style=|<style|<script|href=/i);
  });
});

describe("a switch map that is only tried", () => {
  const attempt = (fields: object, query = "") =>
    office()
      .post(`/api/v1/bank-settings${query}`)
      .send({ map: MAP, protocol: "can-b", packCount: 3, ...fields });

  test("gives positions and addresses, or their drawing", async () => {
    const reply = await attempt({});
    expect(reply.status, JSON.stringify(reply.body)).toBe(200);
    expect(reply.body.packs.map((pack: { address: number }) => pack.address)).toEqual([0, 1, 2]);
    expect([reply.body.clashes, reply.body.differences]).toEqual([[], []]);
    const drawing = await attempt({}, "?format=svg");
    expect(drawing.headers["content-type"]).toContain("image/svg+xml");
  });

  test("is held against what was found: clashes by place, differences in words", async () => {
    const found = (position: number, dial: string, end: string) => ({
      position,
      settings: [
        { switch: "dial", position: dial },
        { switch: "end", position: end },
      ],
    });
    const reply = await attempt({ found: [found(1, "0", "off"), found(3, "0", "on")] });
    expect(reply.body.clashes).toEqual([{ address: 0, positions: [1, 3] }]);
    expect(reply.body.sentences).toEqual(["Packs 1 and 3 all have address 0."]);
    const sentences = reply.body.differences.map((one: { sentence: string }) => one.sentence);
    expect(sentences).toEqual(["Pack 2 was not read.", "Pack 3, Dial: is 0, must be 2."]);
  });

  test.each([
    [
      "two packs with one address",
      {
        map: mapOf({
          ...protocol("can-b", -1),
          settings: {
            form: "formula",
            parts: [
              { switch: "dial", rule: { by: "fixed", position: "1" } },
              { switch: "end", rule: { by: "ends", which: "last" } },
            ],
          },
        }),
      },
      "/body/map",
    ],
    [
      "a switch that is not there",
      { map: mapOf({ ...protocol("can-b", -1), address: { switch: "x" } }) },
      "/body/map",
    ],
    ["a protocol that is not there", { protocol: "can-z" }, "/body/protocol"],
    ["one pack too many", { packCount: 5 }, "/body/packCount"],
    ["a label of two lines", { map: { ...MAP, productModel: "A\nB" } }, "/body/map/productModel"],
  ])("is refused at the place of the fault: %s", async (_name, fields, pointer) => {
    const reply = await attempt(fields);
    expect(reply.status, JSON.stringify(reply.body)).toBe(422);
    expect(pointersOf(reply)).toContain(pointer);
  });

  test.each([
    [4, 200],
    [5, 422],
  ])("takes as many packs as its protocol says: %d is %d", async (packCount, status) => {
    expect((await attempt({ packCount })).status).toBe(status);
  });
});
