// A process of its own that sends the outbox once: for killing in the middle.
import { connect } from "../../src/db/client.ts";
import { sendAt } from "../support/smtp.ts";

const [url = "", smtpUrl = "", now = ""] = process.argv.slice(2);
await sendAt(connect({ url, poolSize: 4 }), { SMTP_URL: smtpUrl }, new Date(now));
process.exit(0);
