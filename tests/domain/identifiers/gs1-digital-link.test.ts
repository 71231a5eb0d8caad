import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  buildDigitalLink,
  parseDigitalLink,
} from "../../../src/domain/identifiers/gs1-digital-link.ts";
import { elementSet, elementsOf } from "./gs1-elements.ts";

// Rows marked * are examples of the GS1 Digital Link URI Syntax standard, as they stand in the
// tests of GS1's own open syntax engine; the rest of the rows are from those tests too.
describe("Digital Link URIs (published test vectors)", () => {
  test.each([
    ["https://id.gs1.org/01/09520123456788", "(01)09520123456788"], // *
    ["https://brand.example.com/01/9520123456788", "(01)09520123456788"], // *
    ["https://brand.example.com/some-extra/pathinfo/01/9520123456788", "(01)09520123456788"], // *
    ["https://id.gs1.org/01/09520123456788/22/2A", "(01)09520123456788(22)2A"], // *
    ["https://id.gs1.org/01/09520123456788/10/ABC123", "(01)09520123456788(10)ABC123"], // *
    ["https://id.gs1.org/01/09520123456788/21/12345", "(01)09520123456788(21)12345"], // *
    [
      "https://id.gs1.org/01/09520123456788/10/ABC1/21/12345?17=180426",
      "(01)09520123456788(10)ABC1(21)12345|(17)180426",
    ], // *
    ["https://id.gs1.org/01/09520123456788?3103=000195", "(01)09520123456788|(3103)000195"], // *
    ["https://id.gs1.org/00/952012345678912345", "(00)952012345678912345"], // *
    [
      "https://id.gs1.org/00/952012345678912345?02=09520123456788&37=25&10=ABC123",
      "(00)952012345678912345|(02)09520123456788(37)25(10)ABC123",
    ], // *
    ["https://id.gs1.org/414/9520123456788", "(414)9520123456788"], // *
    ["https://id.gs1.org/414/9520123456788/254/32a%2Fb", "(414)9520123456788(254)32a/b"], // *
    [
      "https://example.com/8004/9520614141234567?01=9520123456788",
      "(8004)9520614141234567|(01)09520123456788",
    ], // *
    [
      "https://id.gs1.org/01/09520123456788/235/XYZ?10=ABC123",
      "(01)09520123456788(235)XYZ|(10)ABC123",
    ],
    ["https://a/stem/00/006141411234567890", "(00)006141411234567890"],
    ["https://a/00/faux/00/006141411234567890", "(00)006141411234567890"],
    ["https://a/01/416000336108", "(01)00416000336108"],
    ["https://a/01/02345673", "(01)00000002345673"],
    [
      "https://a/01/12312312312333/22/TEST/10/ABC/21/XYZ",
      "(01)12312312312333(22)TEST(10)ABC(21)XYZ",
    ],
    ["https://a/stem/00/006141411234567890?", "(00)006141411234567890"],
    ["https://a/01/12312312312333?99=ABC&98=XYZ", "(01)12312312312333|(99)ABC(98)XYZ"],
    ["https://a/01/12312312312333?&&&99=ABC&&&&&&98=XYZ&&&", "(01)12312312312333|(99)ABC(98)XYZ"],
    ["https://a/01/12312312312333?99=ABC&unknown=666&98=XYZ", "(01)12312312312333|(99)ABC(98)XYZ"],
    ["https://a/01/12312312312333?singleton&99=ABC", "(01)12312312312333|(99)ABC"],
    [
      "https://a/01/12312312312333/22/ABC%2d123?99=ABC&98=XYZ%2f987",
      "(01)12312312312333(22)ABC-123|(99)ABC(98)XYZ/987",
    ],
    ["https://a/01/12312312312333/22/ABC+123?99=ABC", "(01)12312312312333(22)ABC+123|(99)ABC"],
    ["https://a/01/12312312312333/22/test#fragment", "(01)12312312312333(22)test"],
    ["https://a/stem/00/006141411234567890?99=ABC#", "(00)006141411234567890|(99)ABC"],
    ["HTTP://a/01/12312312312333", "(01)12312312312333"],
  ])("%s", (uri, expected) => {
    const [path = "", attributes = ""] = expected.split("|");
    expect(parseDigitalLink(uri)).toMatchObject({
      ok: true,
      path: elementsOf(path),
      attributes: elementsOf(attributes),
    });
  });

  test.each([
    ["https://a/gtin/12312312312333", "no GS1 key"],
    ["https://a/stem/00/006141411234567890/", "no GS1 key"],
    ["https://a/01/12312312312333?99=", "0 characters"],
    ["https://a/01/12312312312333?99=ABC&999=faux", "not an identifier"],
    ["https://a/01/12312312312333/22/ABC%2d123?98=XYZ+987", "does not allow"],
    ["https://example.com/01/09520123456788?10=ABC123", "belongs in the path"],
    ["https://id.gs1.org/01/09520123456788/10/A?99=X&01=09520123456788", "twice"],
    ["https://id.gs1.org/01/09520123456788/10/ABC123?99=XYZ789&10=ABC123", "twice"],
    ["https://id.gs1.org/01/09520123456788/10/A?99=XYZ789&99=XYZ789", "twice"],
    ["https://example.com/01/09520123456788/89/ABC123?99=XYZ", "not an identifier"],
    ["https://example.com/01/09520123456788?99=XYZ&89=ABC123", "not an identifier"],
  ])("%s is refused", (uri, reason) => {
    expect(parseDigitalLink(uri)).toEqual({
      ok: false,
      problem: expect.stringContaining(reason),
    });
  });

  test.each([
    ["https://id.gs1.org/01/09520123456788/21/A/10/B", "order"],
    ["https://id.gs1.org/01/09520123456788/10/A/22/B", "order"],
    ["https://id.gs1.org/00/952012345678912345/21/A", "order"],
    ["https://id.gs1.org/01/09520123456789", "wrong check digit"],
    ["https://id.gs1.org/01/09520123456788/21/A%2", "hex digits"],
    ["https://id.gs1.org/01/09520123456788/21/%C3%A9", "does not allow"],
    ["ftp://id.gs1.org/01/09520123456788", "not a web address"],
    ["https://id.gs1.org", "no GS1 key"],
    ["09520123456788", "not a web address"],
    [`https://id.gs1.org/01/09520123456788/21/${"A".repeat(2048)}`, "too long"],
  ])("%s is refused (URI syntax 1.2: order 22, 10, 21; RFC 3986)", (uri, reason) => {
    expect(parseDigitalLink(uri)).toEqual({
      ok: false,
      problem: expect.stringContaining(reason),
    });
  });

  test("the stem before the key is given back", () => {
    const link = parseDigitalLink("https://example.com/some-extra/pathinfo/01/09520123456788");
    expect(link).toMatchObject({ stem: "https://example.com/some-extra/pathinfo" });
  });

  test("writing puts qualifiers in the order 22, 10, 21 and sorts the attributes", () => {
    const elements = elementsOf("(240)X(21)SN42(17)261231(01)09506000134352(10)LOT7");
    expect(buildDigitalLink(elements)).toEqual({
      ok: true,
      uri: "https://id.gs1.org/01/09506000134352/10/LOT7/21/SN42?17=261231&240=X",
    });
    expect(buildDigitalLink(elements.slice(1, 4), "https://example.com/p/")).toEqual({
      ok: true,
      uri: "https://example.com/p/01/09506000134352/21/SN42?17=261231",
    });
  });

  test("without a key, or with an identifier twice, there is no URI", () => {
    expect(buildDigitalLink(elementsOf("(21)SN42"))).toMatchObject({ ok: false });
    expect(buildDigitalLink(elementsOf("(01)09506000134352(21)A(21)B"))).toMatchObject({
      ok: false,
    });
  });
});

test("every allowed character survives as a URI of RFC 3986 characters", () => {
  fc.assert(
    fc.property(elementSet, (set) => {
      const written = buildDigitalLink(set);
      if (!written.ok || !/^[A-Za-z0-9:/?=&%._~-]+$/.test(written.uri)) return false;
      const read = parseDigitalLink(written.uri);
      if (!read.ok) return false;
      const back = new Map([...read.path, ...read.attributes].map(({ ai, value }) => [ai, value]));
      return set.every(({ ai, value }) => back.get(ai) === value) && back.size === set.length;
    }),
  );
});
