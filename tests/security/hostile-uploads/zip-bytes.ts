// The least of a ZIP: the beginning of an entry and the end of the directory.
export const ZIP = Buffer.from("504b0304140000000000", "hex");
export const ZIP_END = Buffer.concat([Buffer.from("504b0506", "hex"), Buffer.alloc(18)]);
