import { describe, expect, test } from "vitest";
import { Turns } from "../../src/web/turns.ts";

const sentence = "Many are at it. Try again soon.";

/** Work that ends when it is told to. */
function held() {
  let end = (): void => undefined;
  const ended = new Promise<void>((resolve) => {
    end = resolve;
  });
  return { work: () => ended, end };
}
const soon = () => new Promise((resolve) => setImmediate(resolve));

describe("turns", () => {
  test("are taken by so many at once, in the order of coming", async () => {
    const turns = new Turns({ atOnce: 2, waitingMost: 5, sentence });
    const begun: number[] = [];
    const jobs = [0, 1, 2, 3].map(() => held());
    const all = jobs.map(({ work }, at) =>
      turns.take(async () => {
        begun.push(at);
        await work();
        return at;
      }),
    );
    await soon();
    expect(begun).toEqual([0, 1]);
    jobs[1]?.end();
    await soon();
    expect(begun).toEqual([0, 1, 2]);
    for (const { end } of jobs) end();
    expect(await Promise.all(all)).toEqual([0, 1, 2, 3]);
  });

  test("are refused with a time to come again when too many wait, and free after", async () => {
    const turns = new Turns({ atOnce: 1, waitingMost: 1, sentence });
    const first = held();
    const done = [turns.take(first.work), turns.take(async () => undefined)];
    await expect(turns.take(async () => "third")).rejects.toMatchObject({
      code: "busy",
      message: sentence,
      extras: { retryAfterS: 10 },
    });
    first.end();
    await Promise.all(done);
    expect(await turns.take(async () => "third")).toBe("third");
  });

  test("go on after work that failed", async () => {
    const turns = new Turns({ atOnce: 1, waitingMost: 3, sentence });
    const failing = turns.take(() => Promise.reject(new Error("broken")));
    const next = turns.take(async () => "next");
    await expect(failing).rejects.toThrow("broken");
    expect(await next).toBe("next");
  });
});
