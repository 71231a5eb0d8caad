import { createServer, type IncomingHttpHeaders, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { Webhook } from "standardwebhooks";
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { readConfig } from "../../src/config.ts";
import { inFirm } from "../../src/db/scope.ts";
import { raiseEvent } from "../../src/features/webhooks/raise-event.ts";
import { signatureHeaders } from "../../src/features/webhooks/signature.ts";
import { sendWebhooks } from "../../src/runs/send-webhooks.ts";
import { startService, type TestService } from "../support/app.ts";

let service: TestService;
let server: Server;
let url: string;
let answer: { status: number; headers?: Record<string, string> } = { status: 200 };
let received: { headers: IncomingHttpHeaders; body: string }[] = [];
let clock = new Date();

beforeAll(async () => {
  service = await startService({
    now: () => clock,
    environment: { WEBHOOKS_INTERNAL: "true" },
  });
  server = createServer((request, reply) => {
    let body = "";
    request.on("data", (part) => {
      body += part;
    });
    request.on("end", () => {
      received.push({ headers: request.headers, body });
      reply.writeHead(answer.status, answer.headers).end();
    });
  });
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  url = `http://127.0.0.1:${(server.address() as AddressInfo).port}/hook`;
});
afterAll(async () => {
  server.close();
  await service.stop();
});
beforeEach(() => {
  received = [];
  answer = { status: 200 };
  clock = new Date();
});

const owner = () => service.as(service.firm.people.owner);
const config = (internal = "true") =>
  readConfig({ DATA_DIR: ".data/tests", WEBHOOKS_INTERNAL: internal }, ".data/tests");
const send = () => sendWebhooks(service.db, config(), () => clock);
const raise = (level: string) =>
  inFirm(service.db, service.firm.firmId, (tx) =>
    raiseEvent(tx, { kind: "firmware.updated", data: { level } }, clock),
  );
const add = async () => {
  const reply = await owner()
    .post("/api/v1/webhooks")
    .send({ url, kinds: ["firmware.updated"] });
  expect(reply.status, JSON.stringify(reply.body)).toBe(201);
  return reply.body as { id: string; secret: string; version: number };
};
const deliveries = async (id: string) =>
  (await owner().get(`/api/v1/webhooks/${id}/deliveries`)).body.items;
const disable = async (id: string) => {
  const list = (await owner().get("/api/v1/webhooks")).body.items;
  const { version } = list.find((one: { id: string }) => one.id === id);
  const match = { "if-match": `"${version}"` };
  await owner().patch(`/api/v1/webhooks/${id}`).set(match).send({ state: "disabled" });
};

describe("an event", () => {
  test("arrives once, signed by Standard Webhooks 1.0 (package standardwebhooks)", async () => {
    const hook = await add();
    await raise("2.0.0");
    expect(await send()).toMatchObject({ delivered: 1 });
    expect(await send()).toMatchObject({ delivered: 0 });
    const [{ headers, body }] = received as [(typeof received)[number]];
    const verified = new Webhook(hook.secret).verify(body, headers as Record<string, string>);
    expect(verified).toMatchObject({ type: "firmware.updated", data: { level: "2.0.0" } });
    expect(() =>
      new Webhook(hook.secret).verify(`${body} `, headers as Record<string, string>),
    ).toThrow();
    const kept = await inFirm(service.db, service.firm.firmId, (tx) =>
      tx.webhookEndpoint.findMany({ where: { id: hook.id } }),
    );
    expect(Buffer.from(kept[0]!.sealedSecret).includes(hook.secret.slice(6))).toBe(false);
    await disable(hook.id);
  });

  test("of what was rolled back is told to nobody", async () => {
    const hook = await add();
    const work = inFirm(service.db, service.firm.firmId, async (tx) => {
      await raiseEvent(tx, { kind: "firmware.updated", data: {} }, clock);
      throw new Error("no");
    });
    await expect(work).rejects.toThrow("no");
    expect(await deliveries(hook.id)).toEqual([]);
    await disable(hook.id);
  });

  test("that failed is tried again under its id, then given up and sent by hand", async () => {
    const hook = await add();
    answer = { status: 500 };
    await raise("2.1.0");
    await send();
    const [first] = await deliveries(hook.id);
    expect(first).toMatchObject({ state: "waiting", attempts: 1, lastStatus: 500 });
    expect(await send()).toMatchObject({ missed: 0 });
    for (let attempt = 1; attempt < 9; attempt += 1) {
      const [next] = await deliveries(hook.id);
      clock = new Date(Date.parse(next.nextAt) + 1);
      await send();
    }
    const [given] = await deliveries(hook.id);
    expect(given).toMatchObject({ state: "failed", attempts: 9 });
    expect(new Set(received.map(({ headers }) => headers["webhook-id"])).size).toBe(1);
    answer = { status: 204 };
    const replay = `/api/v1/webhooks/${hook.id}/replay`;
    expect((await owner().post(replay).send({ deliveryId: first.id })).status).toBe(201);
    await send();
    expect((await deliveries(hook.id))[0]).toMatchObject({ state: "delivered", lastStatus: 204 });
    await disable(hook.id);
  });

  test("that failed is sent again between two times, and none outside them", async () => {
    const hook = await add();
    const start = Date.now();
    const at = (minutes: number) => new Date(start + minutes * 60_000);
    answer = { status: 500 };
    for (const minute of [0, 10, 20]) {
      clock = at(minute);
      await raise(`2.1.${minute}`);
    }
    for (let attempt = 0; attempt < 9; attempt += 1) {
      await send();
      const due = (await deliveries(hook.id)).map((one: { nextAt: string }) => one.nextAt);
      clock = new Date(Math.max(...due.map(Date.parse)) + 1);
    }
    const states = async () =>
      (await deliveries(hook.id)).map(({ state }: { state: string }) => state);
    expect(await states()).toEqual(["failed", "failed", "failed"]);
    const replay = (body: object) => owner().post(`/api/v1/webhooks/${hook.id}/replay`).send(body);
    const between = { since: at(10).toISOString(), until: at(20).toISOString() };
    expect((await replay(between)).status).toBe(201);
    expect(await states()).toEqual(["failed", "waiting", "failed"]);
    const early = await replay({ since: at(20).toISOString(), until: at(20).toISOString() });
    expect([early.status, early.body.errors[0].pointer]).toEqual([422, "/body/until"]);
    expect((await replay({ until: at(20).toISOString() })).status).toBe(422);
    await disable(hook.id);
  });

  test("is not carried along a redirect", async () => {
    const hook = await add();
    answer = { status: 302, headers: { location: url } };
    await raise("2.2.0");
    await send();
    expect(received).toHaveLength(1);
    expect((await deliveries(hook.id))[0].lastError).toBe("redirects are not followed");
    await disable(hook.id);
  });

  test("is signed by both secrets while one is being replaced", async () => {
    const hook = await add();
    const replaced = await owner().post(`/api/v1/webhooks/${hook.id}/secret`).send();
    await raise("2.3.0");
    await send();
    const [{ headers, body }] = received as [(typeof received)[number]];
    for (const secret of [hook.secret, replaced.body.secret]) {
      expect(() =>
        new Webhook(secret).verify(body, headers as Record<string, string>),
      ).not.toThrow();
    }
    await disable(hook.id);
  });

  test("is sent no more after five days of failure, and the owners hear of it", async () => {
    const hook = await add();
    answer = { status: 503 };
    await raise("2.4.0");
    await send();
    clock = new Date(clock.getTime() + 5 * 24 * 3_600_000 + 1000);
    expect(await send()).toMatchObject({ disabled: 1 });
    const list = (await owner().get("/api/v1/webhooks")).body.items;
    expect(list.find(({ id }: { id: string }) => id === hook.id).state).toBe("disabled");
    const mails = await inFirm(service.db, service.firm.firmId, (tx) =>
      tx.mail.findMany({ where: { subject: "A webhook was disabled" } }),
    );
    expect(mails.map(({ recipient }) => recipient)).toEqual(["owner@alder.example"]);
  });
});

test("the signature is that of the worked example of Standard Webhooks 1.0", () => {
  // https://github.com/standard-webhooks/standard-webhooks, specification, from memory.
  const headers = signatureHeaders(
    { id: "msg_p5jXN8AQM9LWM0D4loKWxJek", timestamp: 1614265330, body: '{"test": 2432232314}' },
    ["whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw"],
  );
  expect(headers["webhook-signature"]).toBe("v1,g0hM9SsE+OTPJTGt/tmIKtSyZlE3uFJELVlNIOLJ1OE=");
});
