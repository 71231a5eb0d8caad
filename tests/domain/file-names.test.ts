// Names for files on any system: what Windows keeps for devices and drops at the end (from memory),
// no path in a name (RFC 6266, 4.3), 255 bytes.
import { describe, expect, test } from "vitest";
import { bagFolder } from "../../src/domain/evidence/bag-scope.ts";
import { isReserved, safeFileName } from "../../src/domain/file-names/safe-name.ts";

describe("a file's name", () => {
  test.each([
    ["Plan à l’été", "Plan à l’été.pdf"],
    ["日本語 🔋", "日本語 🔋.pdf"],
    ["../../etc/passwd", "__.._etc_passwd.pdf"],
    ["..\\..\\win.ini", "__.._win.ini.pdf"],
    ["C:\\a", "C__a.pdf"],
    ["/", "_.pdf"],
    [".htaccess", "_htaccess.pdf"],
    ["a\r\nSet-Cookie: b", "a__Set-Cookie_ b.pdf"],
    ["photo\u202Egpj.exe", "photo_gpj.exe.pdf"],
    ["\u200Fשרטוט", "_שרטוט.pdf"],
    ["CON", "_CON.pdf"],
    ["nul.txt", "_nul.txt.pdf"],
    ["com¹", "_com¹.pdf"],
    ["console", "console.pdf"],
    ["ends in dots. . ", "ends in dots.pdf"],
    ["   ", "_.pdf"],
    ["\uD83D", "\uFFFD.pdf"],
  ])("%j becomes %j", (stem, name) => expect(safeFileName(stem, ".pdf")).toBe(name));

  test("fits into 255 bytes and is cut between signs, never within one", () => {
    for (const sign of ["a", "é", "字", "👩🏽‍🔧", "e\u0301"]) {
      const name = safeFileName(sign.repeat(200), ".pdf");
      const bytes = Buffer.byteLength(name);
      expect(bytes).toBeLessThanOrEqual(255);
      expect(bytes).toBeGreaterThan(Math.min(200, 255 - Buffer.byteLength(sign) - 4));
      expect(name).toBe(`${sign.repeat((bytes - 4) / Buffer.byteLength(sign))}.pdf`);
    }
  });
});

describe("a job's folder in a bag", () => {
  const id = "0198c1a0-0000-7000-8000-000000000000";
  test.each([
    ["J-2026-0142", "j-2026-0142"],
    ["CON", id],
    ["lpt1", id],
    ["../J-1", id],
    ["J 1", id],
    ["Jé-1", id],
    ["J-1\n", id],
    ["", id],
    ["J".repeat(64), "j".repeat(64)],
    ["J".repeat(65), id],
  ])("of %j is %s", (reference, folder) => {
    expect(bagFolder({ id, reference })).toBe(`data/jobs/${folder}`);
  });

  test("is no device of Windows", () =>
    expect([isReserved("aux"), isReserved("auxiliary")]).toEqual([true, false]));
});
