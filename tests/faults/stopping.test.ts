// The service is told to stop while two hundred requests are under way: each gets its whole answer,
// or a refusal that says so; none is cut off.
import { once } from "node:events";
import { rmSync } from "node:fs";
import { request } from "node:http";
import { afterAll, beforeAll, expect, test } from "vitest";
import { PASSWORD } from "../support/app.ts";
import { clusterFolder, startServiceIn } from "../support/own-cluster.ts";
import { Killable } from "./killable.ts";

const REQUESTS = 200;
const folder = clusterFolder();
const service = new Killable(folder);
let email: string;

beforeAll(async () => {
  const stage = await startServiceIn(folder);
  email = stage.firm.people.installer.email;
  await stage.stop();
  await service.start();
}, 60_000);
afterAll(async () => {
  await service.stop();
  rmSync(folder, { recursive: true, force: true });
});

interface Reply {
  status: number;
  isWhole: boolean;
}

/** Signing in takes its time, since passwords are hashed slowly on purpose. */
function signIn(onSent: () => void): Promise<Reply> {
  const body = JSON.stringify({ email, password: PASSWORD });
  const headers = { "content-type": "application/json", "content-length": body.length };
  return new Promise((resolve, reject) => {
    const url = `${service.address}/api/v1/session`;
    const sent = request(url, { method: "POST", headers, agent: false }, (reply) => {
      let text = "";
      reply.on("data", (part) => (text += part));
      reply.on("error", reject);
      reply.on("end", () => {
        const isWhole = Buffer.byteLength(text) === Number(reply.headers["content-length"]);
        resolve({ status: reply.statusCode ?? 0, isWhole });
      });
    });
    sent.on("error", reject);
    sent.on("finish", onSent);
    sent.end(body);
  });
}

test("a signal to stop cuts off none of 200 requests under way", { timeout: 90_000 }, async () => {
  let sent = 0;
  const replies = Array.from({ length: REQUESTS }, () => signIn(() => (sent += 1)));
  // By the first reply all connections have been taken up.
  await Promise.race(replies);
  expect(sent).toBe(REQUESTS);
  process.kill(service.pid, "SIGTERM");
  const ended = once(service.process, "exit");
  const outcomes = await Promise.allSettled(replies);
  expect(outcomes.filter(({ status }) => status === "rejected")).toEqual([]);
  const answered = outcomes.flatMap((outcome) =>
    outcome.status === "fulfilled" ? [outcome.value] : [],
  );
  expect(answered.every(({ isWhole }) => isWhole)).toBe(true);
  expect(answered.filter(({ status }) => ![201, 503].includes(status))).toEqual([]);
  expect(answered.filter(({ status }) => status === 201).length).toBeGreaterThan(1);
  const [code] = await ended;
  expect(code).toBe(0);
  await expect(fetch(`${service.address}/health/live`)).rejects.toThrow();
});
