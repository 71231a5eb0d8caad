import { describe, expect, test } from "vitest";
import { postEvent } from "../../src/features/webhooks/post-event.ts";
import { isPublicAddress } from "../../src/public-network.ts";

const INTERNAL = [
  ...["127.0.0.1", "127.1.2.3", "0.0.0.0", "0.1.2.3", "10.0.0.1", "10.255.255.255", "172.16.0.1"],
  ...["172.31.255.255", "192.168.0.1", "192.168.255.255", "169.254.169.254", "169.254.0.1"],
  ...["100.64.0.1", "100.127.255.255", "192.0.0.1", "192.0.2.1", "198.51.100.1", "203.0.113.9"],
  ...["198.18.0.1", "198.19.255.255", "224.0.0.1", "239.255.255.250", "240.0.0.1"],
  ...["255.255.255.255", "192.88.99.1", "::", "::1", "fe80::1", "fe80::1234:5678", "febf::1"],
  ...["fc00::1", "fd00::1", "fd12:3456:789a::1", "ff02::1", "ff05::2", "2001:db8::1"],
  ...["::ffff:127.0.0.1", "::ffff:10.0.0.1", "::ffff:a9fe:a9fe", "::ffff:192.168.1.1"],
  ...["::127.0.0.1", "64:ff9b::7f00:1", "64:ff9b::a9fe:a9fe", "64:ff9b::10.0.0.1"],
  ...["64:ff9b:1::1", "2002:7f00:1::", "2002:a9fe:a9fe::1", "2001:0:7f00:1::", "100::1"],
];
/** Other ways to write the same, as the URL standard (WHATWG) reads them. */
const SPELLINGS = [
  ...["2130706433", "0x7f000001", "017700000001", "127.1", "127.0.1", "0x7f.1", "0177.0.0.1"],
  ...["0x7f.0x0.0x0.0x1", "0177.0x0.0.1", "127.000.000.001", "0", "0x0", "00", "10.1"],
  ...["167772161", "0xa000001", "012.0.0.1", "2886729729", "0xac100001", "172.16.1", "3232235521"],
  ...["0xc0a80001", "192.168.1", "0300.0250.0.1", "2852039166", "0xa9fea9fe", "169.254.43518"],
  ...["0251.0376.0251.0376", "１２７.０.０.１", "127。0。0。1", "127．0．0．1", "①②⑦.⓪.⓪.①"],
  ...["[::1]", "[0:0:0:0:0:0:0:1]", "[::ffff:127.0.0.1]", "[::ffff:7f00:1]", "[0::ffff:0a00:1]"],
  ...["[fe80::1]", "[fd00::1]", "[::]", "[64:ff9b::127.0.0.1]", "[2002:7f00:0001::]"],
  ...["%31%32%37.0.0.1", "127.0.0.1.", "0x7F.0.0.1", "0X7F000001", "4294967295", "0xffffffff"],
  ...["[ff02::1]", "[2001:db8::1]", "100.64.1", "198.18.1", "224.1", "240.1"],
];

describe("an internal address", () => {
  test.each(INTERNAL)(
    "%s is none that a webhook goes to (IANA special-purpose registries)",
    (ip) => {
      expect(isPublicAddress(ip)).toBe(false);
    },
  );

  test.each(SPELLINGS)("written as %s is refused before anything is sent", async (host) => {
    const to = `http://${host}:9/`;
    const posted = await postEvent({ url: to, body: "{}", headers: {}, allowInternal: false });
    expect(posted).toMatchObject({ ok: false, error: expect.stringContaining("not a public") });
  });

  test("behind a name is refused when the name is looked up", async () => {
    const to = "http://localhost:9/";
    const posted = await postEvent({ url: to, body: "{}", headers: {}, allowInternal: false });
    expect(posted).toMatchObject({ ok: false, error: expect.stringContaining("not a public") });
  });

  test("is at least one of a hundred forms that are tried here", () => {
    expect(INTERNAL.length + SPELLINGS.length).toBeGreaterThanOrEqual(100);
  });

  test.each(["8.8.8.8", "1.1.1.1", "93.184.216.34", "2606:4700::1111", "2a00:1450:4001::1"])(
    "is not %s",
    (ip) => {
      expect(isPublicAddress(ip)).toBe(true);
    },
  );
});
