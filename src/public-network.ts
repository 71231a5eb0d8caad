// Which addresses lie in the Internet, and which settings would lead there in plain text.
import ipaddr from "ipaddr.js";

/** Whether an IP address in its textual form lies in the public part of the Internet. */
export function isPublicAddress(text: string): boolean {
  if (!ipaddr.isValid(text)) return false;
  const address = ipaddr.process(text);
  if (address.range() !== "unicast") return false;
  // Well-known and local-use translations carry an IPv4 address behind them (RFC 6052, RFC 8215).
  if (address instanceof ipaddr.IPv6) return !TRANSLATING.some((range) => address.match(range));
  return true;
}

const TRANSLATING = [
  ipaddr.IPv6.parseCIDR("64:ff9b::/96"),
  ipaddr.IPv6.parseCIDR("64:ff9b:1::/48"),
];

/**
 * Whether a host of a setting may be reached by way of the Internet. A name without a dot, such as
 * another container's, and those that RFC 6761, RFC 6762 and RFC 8375 keep for one's own network
 * (and `internal`, kept by ICANN) may not.
 */
export function leadsOutside({ hostname }: URL): boolean {
  const host = hostname.replace(/^\[|\]$/g, "");
  if (ipaddr.isValid(host)) return isPublicAddress(host);
  return host.includes(".") && !/\.(?:localhost|local|internal|home\.arpa)\.?$/i.test(host);
}

const DATABASES = ["DATABASE_URL", "DATABASE_OWNER_URL", "DATABASE_REPLICA_URL"] as const;

type Addresses = Partial<
  Record<(typeof DATABASES)[number] | (typeof PLAIN)[number] | "MALWARE_SCANNER_URL", string>
>;

const PLAIN = ["PHOTO_BUCKET_URL", "TIME_STAMP_URL"] as const;

/** By setting: what would leave for the Internet unencrypted, and how that is put right. */
export function plainLinks(given: Addresses): string[] {
  const faults: string[] = [];
  for (const name of DATABASES) {
    const url = urlOf(given[name]);
    if (!url || !leadsOutside(url) || url.searchParams.has("sslmode")) continue;
    faults.push(
      `${name}: ${url.hostname} would be reached without TLS; end it with ?sslmode=verify-full ` +
        "(or with ?sslmode=disable where a tunnel encrypts)",
    );
  }
  for (const name of PLAIN) {
    const url = urlOf(given[name]);
    // A time stamp itself is signed; who asks for it by name and password needs cover.
    if (url?.protocol !== "http:" || !leadsOutside(url) || url.password === "") continue;
    faults.push(`${name}: ${url.hostname} would be sent a password in plain; it takes https://`);
  }
  const scanner = urlOf(given.MALWARE_SCANNER_URL);
  if (scanner && leadsOutside(scanner)) {
    faults.push(`MALWARE_SCANNER_URL: ${scanner.hostname} would be sent every photo in plain`);
  }
  return faults;
}

const urlOf = (text: string | undefined): URL | undefined =>
  text === undefined ? undefined : new URL(text);
