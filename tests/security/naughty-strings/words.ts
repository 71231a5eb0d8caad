// Words that programs take for something else, and words of uncommon length; from memory.

const RESERVED = [
  ...[
    "null",
    "NULL",
    "undefined",
    "true",
    "false",
    "None",
    "nil",
    "void",
    "default",
    "this",
    "new",
  ],
  ...["__proto__", "constructor", "prototype", "toString", "valueOf", "toJSON"],
  ...[
    "__defineGetter__",
    "then",
    "length",
    "name",
    "id",
    "length=0",
    "[object Object]",
    "[]",
    "{}",
  ],
  ...["on", "off", "yes", "function(){}"],
];

const NUMBERS = [
  ...["0", "-0", "1e309", "NaN", "Infinity", "1e-400", "0x1f", "0o7"],
  ...["٣", "३", "３", "½", "Ⅷ", "1,000.5", "1.000,5", "1.", ".5", "+5"],
  ...[
    "9007199254740993",
    "18446744073709551616",
    "0.1",
    "1/0",
    "1e1",
    "12/31",
    "2026-02-30",
    "1-2",
  ],
  ...["0xFFFFFFFFFFFFFFFF", "1".repeat(309), "00000000-0000-0000-0000-000000000000"],
];

const LONG = [
  ...[16, 17, 40, 41, 80, 81, 120, 121, 160, 161, 200, 201, 300, 301].map((most) =>
    "w".repeat(most),
  ),
  ...[
    "\u00df".repeat(120),
    "\u{1d400}".repeat(60),
    "\ufdfa".repeat(40),
    "W".repeat(2000),
    "i".repeat(2001),
  ],
  ...["a b ".repeat(1000), "w".repeat(4001), "<".repeat(160), "'".repeat(120), "", " ", "   \t\n "],
  ...["x".repeat(100_000), `${" ".repeat(5000)}x`, "tail ", " head", "\n\nlines\n\n", "two\nlines"],
];

export const WORDS = { "reserved words": RESERVED, numbers: NUMBERS, "long words": LONG };
