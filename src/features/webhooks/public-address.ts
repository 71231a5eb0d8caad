// Webhooks go to the outside only: an address of this machine, of the network it stands in or of a
// cloud's own services would turn the service into a way in. The address is judged after its name
// was looked up, at the moment of connecting, so that a name that changes its mind gains nothing.
import { lookup as lookUp } from "node:dns";
import type { LookupFunction } from "node:net";
import { isPublicAddress } from "../../public-network.ts";

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
