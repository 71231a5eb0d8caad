// "Tables sort, filter, page and export": what was told to people, and what was mailed.
import { afterAll, beforeAll, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { addPeriod } from "../../src/domain/dates/period.ts";
import { queueMail } from "../../src/features/mail/store.ts";
import { addNotice } from "../../src/features/notices/store.ts";
import { startService, type TestService } from "../support/app.ts";
import {
  decoded,
  expectList,
  ROWS,
  readPage,
  turned,
  twoDigits,
  type WalkedList,
  walk,
} from "../support/list-walk.ts";

let service: TestService;
const FIRST_DAY = "2026-08-16";
const RECIPIENT = />(r\d\d)@rook/g;

beforeAll(async () => {
  service = await startService({ now: () => new Date("2026-11-25T12:00:00Z") });
  for (let index = 0; index < ROWS; index += 1) await tell(index);
});
afterAll(() => service.stop());

/** A notice to the office, and a mail that was written as many minutes later as its number. */
async function tell(index: number): Promise<void> {
  const at = turned(index);
  const isThird = index % 3 === 0;
  await inFirm(service.db, service.firm.firmId, async (tx) => {
    const { id: mailId } = await queueMail(
      tx,
      {
        ...{ recipient: `r${at}@rook.example`, subject: `Mail ${twoDigits(index)}` },
        ...{ textBody: "Text", htmlBody: "<p>Text</p>", host: "holdpoint.example" },
        ...(isThird ? { kind: "visit-reminder" as const } : {}),
      },
      new Date(Date.UTC(2026, 9, 1, 9, Number(at))),
    );
    await addNotice(tx, {
      ...{ kind: isThird ? "warranty-due" : "firmware-due", mailId, subject: `Notice ${at}` },
      ...{ day: addPeriod(FIRST_DAY, { days: index }), personId: service.firm.people.office.id },
      ...{ contentSha256: "0".repeat(64), body: "What is due" },
    });
  });
}

const LISTS: readonly WalkedList[] = [
  {
    ...{ path: "/notices", role: "office", column: "subject", cell: /<summary>(Notice \d\d)/g },
    ...{ filter: "kind=warranty-due", left: 15 },
  },
  {
    ...{ path: "/outbox", role: "manager", column: "recipient", cell: RECIPIENT },
    ...{ filter: "state=waiting&kind=visit-reminder&recipient=ROOK.example", left: 15 },
  },
  {
    ...{ path: "/outbox", role: "office", column: "subject", cell: />(Mail \d\d)</g },
    ...{ filter: "recipient=r1", left: 10 },
  },
  {
    // By the minute it was written at, which is the number of its recipient.
    ...{ path: "/outbox", role: "owner", column: "written", cell: RECIPIENT },
    ...{ filter: "kind=notice", left: 30 },
  },
];

test.each(LISTS)(
  "$path by $column is in order over its pages, filtered and exported",
  async (list) => {
    await expectList(service, list);
  },
);

test("notices are in the order of the calendar, the latest first unasked", async () => {
  const days = { cell: /<td class="kind">(\d+ \w+ 2026)</g, role: "office" } as const;
  const shown = await walk(service, "/notices", days);
  expect(shown.map((day) => new Date(`${day} UTC`).toISOString().slice(0, 10))).toEqual(
    Array.from({ length: ROWS }, (_, index) => addPeriod(FIRST_DAY, { days: ROWS - 1 - index })),
  );
});

test("notices of a person who had none of a kind lead back to all", async () => {
  const { text } = await readPage(service, "/notices?kind=warranty-due", "manager");
  expect(text).toContain('class="empty"');
  expect(text).toContain('href="/notices"');
});

test("a notice's export is of the reader's own, and none is offered to an installer", async () => {
  const path = "/notices?kind=firmware-due";
  const own = decoded((await readPage(service, path, "office")).text);
  expect(own).toContain(`kind=firmware-due&sort=-day&personId=${service.firm.people.office.id}`);
  expect((await readPage(service, path, "installer")).text).not.toContain('class="export"');
});

test("the states of the outbox keep its other filters, and count what those leave", async () => {
  const { text } = await readPage(service, "/outbox?kind=visit-reminder&recipient=r1", "office");
  const [, count] =
    /state=waiting&kind=visit-reminder&recipient=r1">Waiting <span class="small">(\d+)</.exec(
      decoded(text),
    ) ?? [];
  const asked = { cell: RECIPIENT, role: "office" } as const;
  const left = await walk(service, "/outbox?kind=visit-reminder&recipient=r1", asked);
  expect(Number(count)).toBe(left.length);
  const none = await readPage(service, "/outbox?state=failed", "office");
  expect(none.text).toContain('class="empty"');
});

test("U+0000, which no text here has, is refused in a filter and in a cursor", async () => {
  const place = JSON.stringify(["a\0b", "01900000-0000-7000-8000-00000000dead"]);
  const cursor = Buffer.from(place).toString("base64url");
  for (const query of ["recipient=a%00b", `cursor=${cursor}`]) {
    expect((await readPage(service, `/outbox?${query}`, "office")).status).toBe(422);
  }
});
