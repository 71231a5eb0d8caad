import { connect } from "node:net";
import Fastify from "fastify";
import { afterAll, beforeAll, expect, test } from "vitest";
import { endSlowBodies } from "../../src/web/slow-bodies.ts";

const app = Fastify({ requestTimeout: 60_000 });
let port = 0;

beforeAll(async () => {
  endSlowBodies(app, 300);
  app.post("/short", async () => "taken");
  app.post("/long", { config: { slowUpload: true } }, async () => "taken");
  await app.listen({ port: 0, host: "127.0.0.1" });
  const address = app.server.address();
  port = typeof address === "object" && address ? address.port : 0;
});
afterAll(async () => app.close());

/** Sends a JSON text a byte at a time; what the server answered before it hung up. */
function trickle(path: string, pauseMs: number): Promise<string> {
  const body = '{"slow":1}';
  return new Promise((resolve) => {
    const socket = connect(port, "127.0.0.1");
    let answer = "";
    socket.on("data", (bytes) => {
      answer += bytes;
    });
    socket.on("error", () => undefined);
    const head = `POST ${path} HTTP/1.1\r\nHost: here\r\nConnection: close\r\n`;
    socket.write(`${head}Content-Type: application/json\r\nContent-Length: ${body.length}\r\n\r\n`);
    let at = 0;
    const timer = setInterval(() => {
      if (at < body.length) socket.write(body[at] ?? "");
      at += 1;
    }, pauseMs);
    socket.on("close", () => {
      clearInterval(timer);
      resolve(answer);
    });
  });
}

test("a trickling body is cut off, without an answer", async () => {
  expect(await trickle("/short", 100)).toBe("");
});

test("a route that takes large files over bad lines waits for it", async () => {
  expect(await trickle("/long", 100)).toContain("taken");
});

test("a body that is in time is answered", async () => {
  expect(await trickle("/short", 1)).toContain("taken");
});
