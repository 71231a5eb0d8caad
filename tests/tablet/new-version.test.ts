import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { lookForVersions } from "../../src/tablet/views/new-version.ts";

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

test("a newer version is asked for with signal, at a look and hourly, never twice a minute", () => {
  let asked = 0;
  const page = new EventTarget();
  const shown = new EventTarget();
  const registration = {
    lookForNewVersion: async () => {
      asked += 1;
    },
  };
  const stop = lookForVersions(registration, { page, shown, now: () => Date.now() });
  page.dispatchEvent(new Event("online"));
  shown.dispatchEvent(new Event("visibilitychange"));
  expect(asked).toBe(1);
  vi.advanceTimersByTime(61_000);
  shown.dispatchEvent(new Event("visibilitychange"));
  expect(asked).toBe(2);
  vi.advanceTimersByTime(60 * 60_000);
  expect(asked).toBe(3);
  stop();
  vi.advanceTimersByTime(60 * 60_000);
  page.dispatchEvent(new Event("online"));
  expect(asked).toBe(3);
});
