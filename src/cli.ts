// The operator's commands: `node src/cli.ts <command>`; without one, the list of them.
import { enableCompileCache } from "node:module";

// Node keeps what it made of the source: the next command loads quicker by a third.
enableCompileCache();

/** Each loads its own part of the program when it is run, not all of them. */
interface Command {
  usage: string;
  does: string;
  run(args: string[]): Promise<void>;
}

const COMMANDS: Record<string, Command> = {
  "firm-add": {
    usage:
      "firm-add --name NAME --time-zone ZONE --owner-name NAME --owner-email ADDRESS [--units metric|us] [--language en|es] [--starter-plans]",
    does: "founds a firm with its first owner and prints the owner's first password",
    run: async (args) => (await import("./cli/firm.ts")).addFirm(args),
  },
  "person-add": {
    usage: "person-add --firm ID --name NAME --email ADDRESS --roles ROLE[,ROLE]",
    does: "adds a person to a firm and prints the first password",
    run: async (args) => (await import("./cli/person.ts")).addPersonToFirm(args),
  },
  notify: {
    usage: "notify [--dry-run]",
    does: "does today's firmware notice of every firm now, or prints what would go out",
    run: async (args) => (await import("./cli/notify.ts")).notify(args),
  },
  mail: {
    usage: "mail bounce FILE",
    does: "takes a delivery report (RFC 3464) that came back, and marks the mail it is about",
    run: async (args) => (await import("./cli/mail.ts")).takeMail(args),
  },
  demo: {
    usage: "demo",
    does: "loads the demo scenario into a database without a firm and prints how to sign in",
    run: async (args) => (await import("./cli/demo.ts")).loadDemoScenario(args),
  },
  tablet: {
    usage: "tablet import FILE --as ADDRESS",
    does: "brings in an outbox file that a tablet saved, in that person's name",
    run: async (args) => (await import("./cli/tablet.ts")).importOutbox(args),
  },
  import: {
    usage:
      "import KIND FILE --as ADDRESS " +
      "[--column NAME=FIELD] [--set FIELD=VALUE] [--dry-run] [--leave-bad] [--rejects FILE]",
    does: "tries a CSV file, tells of every bad row, and imports it in that person's name",
    run: async (args) => (await import("./cli/import.ts")).importTable(args),
  },
  export: {
    usage: "export LIST --as ADDRESS [--out FILE] [--filter NAME=VALUE]",
    does: "writes a list as CSV; that it was taken away stays on record",
    run: async (args) => (await import("./cli/export.ts")).exportTable(args),
  },
  backup: {
    usage: "backup FILE|- [--passphrase-file FILE | --key-file FILE | --recipient KEY]",
    does: "writes database, photos, documents and keys into one file, while the service runs",
    run: async (args) => (await import("./cli/backup.ts")).backup(args),
  },
  "backup-key": {
    usage: "backup-key FILE",
    does: "makes a key for backups; its public part makes them, the file opens them",
    run: async (args) => (await import("./cli/backup.ts")).makeBackupKey(args),
  },
  restore: {
    usage: "restore FILE [--passphrase-file FILE | --key-file FILE] [--check | --replace]",
    does: "checks a backup whole, then restores it into an empty database and data folder",
    run: async (args) => (await import("./cli/restore.ts")).restore(args),
  },
  "photos-to-bucket": {
    usage: "photos-to-bucket",
    does: "copies photos and documents from DATA_DIR into PHOTO_BUCKET_URL; may be run again",
    run: async () => (await import("./cli/photos-to-bucket.ts")).photosToBucket(),
  },
  verify: {
    usage: "verify BAG [--certificates FILE] | ledger [--firm ID]",
    does: "checks an evidence bag, ZIP file or folder, or the ledgers and checkpoints kept here",
    run: async (args) => (await import("./cli/verify.ts")).verify(args),
  },
  openapi: {
    usage: "openapi",
    does: "prints the OpenAPI document",
    run: async () => (await import("./cli/openapi.ts")).writeOpenApi(),
  },
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
