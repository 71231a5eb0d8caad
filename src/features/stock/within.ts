import type { ShownLanguage } from "../../language/languages.ts";
import { say } from "../../language/say.ts";

const PAGES = [
  { href: "/goods-in", key: "kit.goodsIn" },
  { href: "/goods-in/stock", key: "kit.stock" },
  { href: "/goods-in/consumables", key: "kit.consumables" },
  { href: "/goods-in/tomorrow", key: "kit.tomorrow" },
] as const;

/** Links between the pages of goods-in and stock, this one marked. */
export const withinStock = (here: (typeof PAGES)[number]["href"], language: ShownLanguage) =>
  PAGES.map(({ href, key }) => ({ href, text: say(language, key), current: href === here }));
