// The firm's mark on letters to customers, as a mail server receives them.
import sharp from "sharp";
import { afterAll, beforeAll, expect, test } from "vitest";
import { writeMark } from "../../src/features/firms/branding-store.ts";
import { markFrom } from "../../src/features/firms/keep-mark.ts";
import { EARLY, entryOf, startVisitDesk, type VisitDesk } from "../support/visit-desk.ts";

let desk: VisitDesk;
beforeAll(async () => {
  desk = await startVisitDesk();
});
afterAll(() => desk.stop());

test("a letter bears the firm's mark inside of it, small, with the entry beside", async () => {
  const drawn = sharp({
    create: { width: 700, height: 140, channels: 3, background: "#103a70" },
  });
  const mark = await markFrom(await drawn.png().toBuffer());
  await desk.inOwnFirm((tx) => writeMark(tx, mark));
  await desk.book((await desk.newJob()).id);
  await desk.write(EARLY);
  await desk.send(EARLY);
  await desk.inOwnFirm((tx) => writeMark(tx, null));
  const [mail] = desk.server.received;
  // mailparser puts what is shown inside of the letter into its text.
  expect(String(mail!.html)).toMatch(
    /<img src="data:image\/png;base64,[^"]+" alt="alder" width="200" height="40">/,
  );
  const inside = mail!.attachments.find(({ related }) => related);
  expect(inside).toMatchObject({ contentType: "image/png", contentDisposition: "inline" });
  expect(await sharp(inside!.content).metadata()).toMatchObject({ width: 400, height: 80 });
  expect(entryOf(mail!)).toMatchObject({ method: "REQUEST", status: "CONFIRMED" });
});

test("a letter of a firm without a mark shows no picture", async () => {
  desk.server.received.length = 0;
  await desk.book((await desk.newJob()).id, "13:00", "14:00");
  await desk.write(EARLY);
  await desk.send(EARLY);
  const [mail] = desk.server.received;
  expect(String(mail!.html)).not.toContain("<img");
  expect(mail!.attachments.map(({ contentType }) => contentType)).not.toContain("image/png");
});
