import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import Handlebars from "handlebars";
import type { MessageKey } from "../../language/catalogue.ts";
import { type MessageValues, say } from "../../language/say.ts";

const FOLDER = fileURLToPath(new URL("../../../templates/mail/", import.meta.url));

export interface MailText {
  subject: string;
  text: string;
  html: string;
}

const engine = Handlebars.create();
engine.registerHelper("t", (key: MessageKey, options: Handlebars.HelperOptions) =>
  say(options.data.root.language, key, options.hash as MessageValues),
);
engine.registerHelper("plural", (count: number, one: string, many: string) =>
  count === 1 ? `${count} ${one}` : `${count} ${many}`,
);

/**
 * Reads templates/mail/<name>.text.hbs, whose first line is the subject, and <name>.html.hbs. What
 * is filled into the HTML is escaped; plain text has nothing to escape. A name that the data lacks
 * throws. {{t "area.key"}} is said in the `language` of the data.
 */
export function mailTemplate(name: string): (data: object) => MailText {
  const text = engine.compile(read(`${name}.text.hbs`), { noEscape: true, strict: true });
  const html = engine.compile(read(`${name}.html.hbs`), { strict: true });
  return (data) => {
    const [subject = "", ...body] = text(data).split("\n");
    return { subject: subject.trim(), text: `${body.join("\n").trim()}\n`, html: html(data) };
  };
}

const read = (file: string): string => readFileSync(`${FOLDER}${file}`, "utf8");
