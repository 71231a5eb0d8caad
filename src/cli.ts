// The operator's commands: `node src/cli.ts <command>`; without one, the list of them.
import { loadDemoScenario } from "./cli/demo.ts";
import { exportTable } from "./cli/export.ts";
import { addFirm } from "./cli/firm.ts";
import { importTable } from "./cli/import.ts";
import { takeMail } from "./cli/mail.ts";
import { notify } from "./cli/notify.ts";
import { writeOpenApi } from "./cli/openapi.ts";
import { addPersonToFirm } from "./cli/person.ts";
import { importOutbox } from "./cli/tablet.ts";
import { verify } from "./cli/verify.ts";

interface Command {
  usage: string;
  does: string;
  run(args: string[]): Promise<void>;
}

const COMMANDS: Record<string, Command> = {
  "firm-add": {
    usage:
      "firm-add --name NAME --time-zone ZONE --owner-name NAME --owner-email ADDRESS [--units metric|us] [--starter-plans]",
    does: "founds a firm with its first owner and prints the owner's first password",
    run: addFirm,
  },
  "person-add": {
    usage: "person-add --firm ID --name NAME --email ADDRESS --roles ROLE[,ROLE]",
    does: "adds a person to a firm and prints the first password",
    run: addPersonToFirm,
  },
  notify: {
    usage: "notify [--dry-run]",
    does: "does today's firmware notice of every firm now, or prints what would go out",
    run: notify,
  },
  mail: {
    usage: "mail bounce FILE",
    does: "takes a delivery report (RFC 3464) that came back, and marks the mail it is about",
    run: takeMail,
  },
  demo: {
    usage: "demo",
    does: "loads the demo scenario into a database without a firm and prints how to sign in",
    run: loadDemoScenario,
  },
  tablet: {
    usage: "tablet import FILE --as ADDRESS",
    does: "brings in an outbox file that a tablet saved, in that person's name",
    run: importOutbox,
  },
  import: {
    usage:
      "import KIND FILE --as ADDRESS " +
      "[--column NAME=FIELD] [--set FIELD=VALUE] [--dry-run] [--leave-bad] [--rejects FILE]",
    does: "tries a CSV file, tells of every bad row, and imports it in that person's name",
    run: importTable,
  },
  export: {
    usage: "export LIST --as ADDRESS [--out FILE] [--filter NAME=VALUE]",
    does: "writes a list as CSV; that it was taken away stays on record",
    run: exportTable,
  },
  verify: {
    usage: "verify BAG [--certificates FILE] | ledger [--firm ID]",
    does: "checks an evidence bag, ZIP file or folder, or the ledgers and checkpoints kept here",
    run: verify,
  },
  openapi: { usage: "openapi", does: "prints the OpenAPI document", run: writeOpenApi },
};

function usage(): string {
  const lines = Object.values(COMMANDS).map(
    (command) => `  ${command.usage}\n      ${command.does}`,
  );
  return `node src/cli.ts COMMAND\n${lines.join("\n")}`;
}

const [name = "", ...args] = process.argv.slice(2);
const command = Object.hasOwn(COMMANDS, name) ? COMMANDS[name] : undefined;
if (!command) {
  console.error(name ? `There is no command ${name}.\n\n${usage()}` : usage());
  process.exit(2);
}
try {
  await command.run(args);
  process.exit(0);
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
  process.exit(1);
}
