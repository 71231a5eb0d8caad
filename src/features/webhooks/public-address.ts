// Webhooks go to the outside only: an address of this machine, of the network it stands in or of a
// cloud's own services would turn the service into a way in. The address is judged after its name
// was looked up, at the moment of connecting, so that a name that changes its mind gains nothing.
import { lookup as lookUp } from "node:dns";
import type { LookupFunction } from "node:net";
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

export class NotPublic extends Error {
  constructor(host: string) {
    super(`${host} is not a public address; webhooks go to public ones only`);
    this.name = "NotPublic";
  }
}

/** For `net.connect`: names resolve to public addresses or to nothing. */
export const publicLookup: LookupFunction = (host, options, done) => {
  lookUp(host, { ...options, all: true, verbatim: true }, (error, addresses) => {
    if (error) return done(error, []);
    if (addresses.length === 0 || addresses.some(({ address }) => !isPublicAddress(address))) {
      return done(new NotPublic(host), []);
    }
    const [first] = addresses;
    if (options.all) return done(null, addresses);
    return done(null, first?.address ?? "", first?.family);
  });
};
