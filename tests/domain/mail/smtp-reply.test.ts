// RFC 5321 4.2.3, RFC 3463 3.2 and 3.3, RFC 7505 4.1 (from memory).
import { describe, expect, test } from "vitest";
import { enhancedStatus, isAddressUseless } from "../../../src/domain/mail/smtp-reply.ts";

describe("an address is of no use", () => {
  test.each<[number | undefined, string, boolean]>([
    [550, "550 No such user here", true],
    [551, "551 User not local", true],
    [553, "553 Mailbox name not allowed", true],
    [552, "552 Exceeded storage allocation", false],
    [554, "554 Transaction failed", false],
    [501, "501 Syntax error in parameters", false],
    [450, "450 Mailbox busy", false],
    [421, "421 Service not available", false],
    [550, "550 5.1.1 Bad destination mailbox address", true],
    [550, "550-5.1.1 The mailbox\n550 5.1.1 does not exist", true],
    [550, "550 5.1.2 Bad destination system address", true],
    [556, "556 5.1.10 Recipient address has null MX", true],
    [550, "550 5.2.1 Mailbox disabled", true],
    [550, "550 5.2.2 Mailbox full", false],
    [550, "550 5.7.1 Delivery not authorized", false],
    [554, "554 5.1.1 unknown", true],
    [550, "550 5.1.8 Bad sender's system address", false],
    [550, "550 5.1.7 Bad sender's mailbox address syntax", false],
    [undefined, "5.1.1 from a report", true],
    [undefined, "4.1.1 for now", false],
    [undefined, "connection lost", false],
    [450, "450 5.1.1 contradicts itself", false],
  ])("code %s, %j: %s", (code, text, useless) => {
    expect(isAddressUseless(code, text)).toBe(useless);
  });

  test("only by a status code, not by an address of the network or a version", () => {
    expect(enhancedStatus("550 host 10.5.1.1 said no")).toBeUndefined();
    expect(enhancedStatus("550 5.1.1.9 no")).toBeUndefined();
    expect(enhancedStatus("550 #5.1.1 no")).toEqual({ class: 5, subject: 1, detail: 1 });
  });
});
