import { describe, expect, test } from "vitest";
import { customerLikeness, siteLikeness } from "../../../src/domain/registry/likeness.ts";

const customer = { name: "Hanne Osei", email: null, phone: null, address: null };
const site = {
  customerId: "a",
  name: null,
  addressLine: "14 Larch Row",
  postcode: "NW0 4ZZ",
  latitude: 52.19,
  longitude: -1.71,
};

describe("two customers are suggested as one (common practice, no source)", () => {
  test.each([
    ["the same name, accents aside", { name: "HANNE ÓSEI" }, ["same-name"]],
    ["a name with a slip in it", { name: "Hanne Osie" }, ["alike-name"]],
    ["nothing in common", { name: "Piotr Bramwell" }, undefined],
  ])("for %s", (_, other, reasons) => {
    expect(customerLikeness(customer, { ...customer, ...other })?.reasons).toEqual(reasons);
  });

  test("for the same phone number, with or without the country's own", () => {
    const one = { ...customer, phone: "+44 20 7946 0018" };
    const other = { ...customer, name: "Piotr Bramwell", phone: "020 7946 0018" };
    expect(customerLikeness(one, other)?.reasons).toEqual(["same-phone"]);
    expect(customerLikeness(one, { ...other, phone: "020 7946 0019" })).toBeUndefined();
  });

  test("not for e-mail addresses or phone numbers that both lack", () => {
    expect(customerLikeness(customer, { ...customer, name: "Piotr Bramwell" })).toBeUndefined();
  });

  test("more for an address of mail than for a name alone", () => {
    const one = { ...customer, email: "hanne@alder.example" };
    const byMail = customerLikeness(one, {
      ...one,
      name: "Piotr Bramwell",
      email: "HANNE@alder.example",
    });
    const byName = customerLikeness(one, { ...one, name: "Hanne Osie", email: null });
    expect(byMail?.reasons).toEqual(["same-email"]);
    expect(byMail?.score).toBeGreaterThan(byName?.score ?? 9);
  });
});

/** Along the meridian a second of arc is 30.9 m on the mean sphere (IUGG, 6,371.0088 km). */
const SECOND = 1 / 3600;

describe("two sites are suggested as one (common practice, no source)", () => {
  const elsewhere = { ...site, addressLine: "9 Quarry Bank", postcode: "TB4 1AA", customerId: "b" };

  test.each([
    [0.96 * SECOND, ["same-place"]],
    [0.98 * SECOND, undefined],
  ])("when %d degrees of latitude apart: %j", (apart, reasons) => {
    const other = { ...elsewhere, latitude: site.latitude + apart };
    expect(siteLikeness(site, other)?.reasons).toEqual(reasons);
  });

  test("for the same street and postcode, however written", () => {
    const other = {
      ...site,
      customerId: "b",
      addressLine: "14, larch row",
      postcode: "nw04zz",
      latitude: 50,
    };
    expect(siteLikeness(site, other)?.reasons).toEqual(["same-address"]);
  });

  test.each([
    ["14 Larch Rwo", ["alike-address"]],
    ["Larch Row", ["alike-address"]],
    ["15 Larch Row", undefined],
  ])("%s beside 14 Larch Row: %j", (addressLine, reasons) => {
    const other = { ...site, customerId: "b", addressLine, latitude: 50 };
    expect(siteLikeness(site, other)?.reasons).toEqual(reasons);
  });

  test("not for the customer alone", () => {
    const other = { ...elsewhere, customerId: "a", latitude: 50 };
    expect(siteLikeness(site, other)).toBeUndefined();
  });
});
