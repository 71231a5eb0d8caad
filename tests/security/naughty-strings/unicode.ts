// Kinds of text that Unicode's own documents warn of, named by document, from memory.

export const between = (from: number, to: number): string[] =>
  Array.from({ length: to - from + 1 }, (_, at) => String.fromCodePoint(from + at));

const within = (sign: string): string => `mid${sign}dle`;

/** "Alder" in an alphabet whose capitals and small letters follow each other. */
const inAlphabet = (start: number): string =>
  [..."Alder"]
    .map((letter) => {
      const code = letter.charCodeAt(0);
      return String.fromCodePoint(start + (code >= 97 ? code - 97 + 26 : code - 65));
    })
    .join("");

/** UTS #39, "Unicode Security Mechanisms": letters of other scripts that look like Latin ones. */
const CONFUSABLES = [
  ...["\u0430lder", "\u0391lder", "Ald\u0435r", "\u0455\u0441\u043e\u0440\u0435", "r\u006eaker"],
  ...[
    "\u0440\u0430\u0443",
    "l1I\u04c0\u2160",
    "O0\u039f\u041e\u0555",
    "g\u0261\u0581",
    "\u2010-\u2212",
  ],
  ...[
    "\uff21\uff4c\uff44\uff45\uff52",
    "\u24b6\u24db\u24d3\u24d4\u24e1",
    "\u1d00\u029f\u1d05\u1d07\u0280",
  ],
  // Mathematical alphabets without holes in the letters used here.
  ...[0x1d400, 0x1d56c, 0x1d670].map(inAlphabet),
];

/** UAX #9, "Unicode Bidirectional Algorithm", table of explicit formatting characters. */
const BIDI = [
  ...["\u061c", "\u200e", "\u200f", ...between(0x202a, 0x202e), ...between(0x2066, 0x2069)],
].map((sign) => `${sign}photo${sign}gpj.exe`);

/** UAX #15, "Unicode Normalization Forms": the same to the eye, not the same text. */
const NORMALISATION = [
  ...["\u212b", "\u00c5", "A\u030a", "\u2126", "\u03a9", "\u00f4", "o\u0302", "\ufb01n", "2\u2075"],
  ...["\u1e69", "\u1e0b\u0323", "q\u0307\u0323", "q\u0323\u0307", "\u017f\u0323", "\u1e9b\u0323"],
  ...["\ud55c", "\u1112\u1161\u11ab", "\uff76\uff9e", "\u30ac", "\u0958", "\u0915\u093c", "\ufdfa"],
];

/** The Unicode Standard, 23.7: code points that never are characters. */
const NONCHARACTERS = [
  ...["\ufdd0", "\ufdef"],
  ...[0, 1, 2, 15, 16]
    .flatMap((plane) => [0xfffe, 0xffff].map((low) => plane * 0x10000 + low))
    .map((code) => String.fromCodePoint(code)),
].map(within);

/** The Unicode Standard, 3.9 (D71 to D75): halves that no UTF-8 can carry; JSON can spell them. */
const HALVES = [
  ...["\ud800", "\udbff", "\udc00", "\udfff"].flatMap((half) => [half, `a${half}`, `${half}z`]),
  ...["\udc00\ud800", "\ud83d\ud83d\ude00", "\ude00 \ud83d"],
];

/** The flag of a region is spelt in tags. */
const inTags = (text: string): string =>
  [...text].map((sign) => String.fromCodePoint(0xe0000 + sign.charCodeAt(0))).join("");

/** UTS #51, "Unicode Emoji": sequences with joiners, tones, flags, keycaps and tags. */
const EMOJI = [
  ...["👩‍🔧", "👷🏽‍♀️", "👨‍👩‍👧‍👦", "🏳️‍🌈", "🏴‍☠️", "🇬🇧", "🇬", "1️⃣", "❤️‍🔥", "🧑🏿‍🤝‍🧑🏻", "☺︎☺️"],
  `\u{1f3f4}${inTags("gbsct")}\u{e007f}`,
  ...["\u200d", "\ufe0f", "\u{1f3fd}", "👷".repeat(40), "\u200d👷\u200d"],
];

/** The Unicode Standard, 2.11: there is no bound on the marks on one letter. */
const STACKS = [3, 33, 111].flatMap((count) => [
  `a${"\u0301".repeat(count)}`,
  `T${between(0x300, 0x300 + count).join("")}ower`,
]);

/** C0, delete, and of C1 (ISO/IEC 6429) its ends, a line end and an introducer. */
const CONTROLS = [...between(0, 0x1f), "\u007f", "\u0080", "\u0085", "\u009b", "\u009f"].map(
  within,
);

/** Signs that end lines, are blank, or have no width. */
const BLANKS = [
  ...[
    "\u2028",
    "\u2029",
    "\u00a0",
    "\u1680",
    "\u2000",
    "\u2007",
    "\u200b",
    "\u200c",
    "\u200d",
    "\u202f",
    "\u205f",
  ],
  ...["\u3000", "\ufeff", "\u180e", "\u2060", "\u00ad", "\u3164", "\u115f", "\u2800", "\ufffc"],
].map(within);
const EDGES = [
  "\u2028",
  "\u00a0",
  "\u3000",
  "\ufeff",
  "\u200b",
  "\u0085",
  "\u3164",
  "\u2800",
].flatMap((sign) => [sign, `${sign}edge${sign}`]);

const SCRIPTS = [
  ...["שלום עולם", "مرحبا بالعالم", "سلام دنیا", "ދިވެހި", "ܫܠܡܐ", "abc שלום 123 مرحبا"],
  ...["ประเทศไทย", "नमस्ते", "田中さんにあげて下さい", "Ⱥ Ⱦ İ ı ß ẞ ŉ ǰ ΐ", "ﬀ ﬃ ﬆ", "Ω≈ç√∫˜µ"],
  ...[
    "\u{10ffff}",
    "\ue000",
    "\u{f0000}",
    "\ufffd",
    "\ufeffmark",
    "𠜎𠜱𠝹𠱓",
    "㏒㏓",
    "⁰⁴⁵₀₁₂",
    "\u{e0001}",
  ],
];

export const UNICODE = {
  confusables: CONFUSABLES,
  ...{ bidi: BIDI, normalisation: NORMALISATION, noncharacters: NONCHARACTERS },
  ...{ "half characters": HALVES, emoji: EMOJI, "stacked marks": STACKS },
  ...{ controls: CONTROLS, blanks: [...BLANKS, ...EDGES], scripts: SCRIPTS },
};
