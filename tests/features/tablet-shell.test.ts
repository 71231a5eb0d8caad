// The page that a tablet keeps: made by the server itself, small, and without anybody's data.
import sharp from "sharp";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { type Bundle, tabletBundle } from "../../src/features/tablet/bundle.ts";
import { startService, type TestService } from "../support/app.ts";

let service: TestService;
let bundle: Bundle;

beforeAll(async () => {
  service = await startService();
  bundle = await tabletBundle();
});
afterAll(() => service.stop());

const get = (path: string) => service.anonymous.get(path);

describe("the tablet's page", () => {
  test("is given to anybody, names its parts, and each of them is there", async () => {
    const page = await get("/tablet/");
    expect([page.status, page.type]).toEqual([200, "text/html"]);
    const named = [...page.text.matchAll(/(?:href|src)="(\/tablet\/[^"]+)"/g)].map(
      (match) => match[1]!,
    );
    expect(named.length).toBeGreaterThanOrEqual(5);
    for (const path of named) expect([path, (await get(path)).status]).toEqual([path, 200]);
  });

  test("runs only scripts and styles of its own, and none from inside the page", async () => {
    const page = await get("/tablet/");
    const policy = page.headers["content-security-policy"] ?? "";
    // CSP Level 3 (W3C): 'wasm-unsafe-eval' allows WebAssembly and no other making of code.
    expect(policy).toContain("script-src 'self' 'wasm-unsafe-eval';");
    expect(policy).not.toMatch(/'unsafe-inline'|'unsafe-eval'|https?:/);
    expect(page.text).not.toMatch(/<script(?![^>]*\ssrc=)|<style|\sstyle=|\son[a-z]+=/);
  });

  test("sends /tablet to the address that its worker covers", async () => {
    const reply = await get("/tablet");
    expect([reply.status, reply.headers.location]).toEqual([308, "/tablet/"]);
  });

  test("is linked from the day's page for who installs, not for the office", async () => {
    const today = (role: "installer" | "office") =>
      service.as(service.firm.people[role]).get("/today").set("accept", "text/html");
    expect((await today("installer")).text).toContain('href="/tablet/"');
    expect((await today("office")).text).not.toContain("/tablet/");
  });

  test("has nothing at another address", async () => {
    const reply = await get("/tablet/assets/tablet-AAAAAAAA.js");
    expect([reply.status, reply.body.type]).toEqual([404, "/problems/not-found"]);
  });
});

describe("its parts", () => {
  test("with a hash in their names are kept for good, the others asked for again", async () => {
    for (const file of bundle.files.values()) {
      const { headers } = await get(file.path);
      const hashed = /-[A-Z0-9]{8}\.(?:js|css)$|-[0-9a-f]{8}\.png$/.test(file.path);
      const wanted = hashed ? "public, max-age=31536000, immutable" : "no-cache";
      expect([file.path, headers["cache-control"]]).toEqual([file.path, wanted]);
    }
  });

  test("are not sent again to who has them (RFC 9110 13.1.2)", async () => {
    const { headers } = await get("/tablet/");
    const again = await get("/tablet/").set("if-none-match", `"other", W/${headers.etag}`);
    expect([again.status, again.text]).toEqual([304, ""]);
    expect((await get("/tablet/").set("if-none-match", '"other"')).status).toBe(200);
  });

  test.each([
    ["gzip", "gzip"],
    ["br, gzip;q=0.8", "gzip"],
    ["identity", undefined],
    ["gzip;q=0", undefined],
  ])("for who accepts %s are packed as %s, and are the same", async (accepted, encoding) => {
    const path = "/tablet/manifest.webmanifest";
    const reply = await get(path).set("accept-encoding", accepted).responseType("blob");
    expect([reply.headers["content-encoding"], reply.headers.vary]).toEqual([
      encoding,
      "accept-encoding",
    ]);
    expect(JSON.parse(String(reply.body)).id).toBe("/tablet/");
  });

  test("the worker covers the page, and lists all that it needs without a network", async () => {
    const { headers, text } = await get("/tablet/sw.js").buffer(true);
    expect([headers["service-worker-allowed"], headers["cache-control"]]).toEqual([
      "/tablet/",
      "no-cache",
    ]);
    const needed = [...bundle.files.keys()].filter((path) => path !== "/tablet/sw.js");
    expect(needed).toContain("/tablet/assets/zxing_reader.wasm");
    for (const path of needed) expect(text).toContain(JSON.stringify(path));
    expect(text).toContain(bundle.version);
  });

  test("the decoder of labels is WebAssembly (Core Specification 5.5: its magic)", async () => {
    const reply = await get("/tablet/assets/zxing_reader.wasm").responseType("blob");
    expect(reply.type).toBe("application/wasm");
    expect((reply.body as Buffer).subarray(0, 4).toString("latin1")).toBe("\0asm");
  });
});

describe("the manifest (Web Application Manifest, W3C)", () => {
  test("opens the page by itself, with icons in the sizes it says", async () => {
    const reply = await get("/tablet/manifest.webmanifest").responseType("blob");
    expect(reply.type).toBe("application/manifest+json");
    const manifest = JSON.parse(String(reply.body));
    expect(manifest).toMatchObject({
      start_url: "/tablet/",
      scope: "/tablet/",
      display: "standalone",
    });
    const icons: { src: string; sizes: string; purpose: string }[] = manifest.icons;
    expect(icons.map(({ sizes, purpose }) => `${purpose} ${sizes}`).sort()).toEqual([
      "any 192x192",
      "any 512x512",
      "maskable 192x192",
      "maskable 512x512",
    ]);
    for (const { src, sizes } of icons) {
      const { width, height, format } = await sharp((await get(src)).body as Buffer).metadata();
      expect([format, `${width}x${height}`]).toEqual(["png", sizes]);
    }
  });
});

describe("the bundle", () => {
  const packedBytes = (...loaded: string[]): number =>
    bundle.chunks
      .filter((chunk) => loaded.includes(chunk.loaded))
      .reduce((sum, chunk) => sum + chunk.packedBytes, 0);

  test("is at most 150 KB packed, but for what is loaded on demand", () => {
    expect(packedBytes("entry", "part", "style")).toBeGreaterThan(0);
    expect(packedBytes("entry", "part", "style")).toBeLessThanOrEqual(150 * 1024);
  });

  test("holds no zod, no server's part and no decoder that the page would load at once", () => {
    const { inputs } = bundle;
    expect(inputs).toContain("src/tablet/main.ts");
    const foreign =
      /node_modules\/(?:zod|fastify|pg|@prisma)\/|^src\/(?:db|web|runs)\/|-store\.ts$/;
    expect(inputs.filter((path) => foreign.test(path))).toEqual([]);
  });

  test("makes no code from texts, which its policy forbids", () => {
    for (const { path, bytes } of bundle.chunks) {
      expect([path, /\bnew Function\(|\beval\(/.test(Buffer.from(bytes).toString())]).toEqual([
        path,
        false,
      ]);
    }
  });
});
