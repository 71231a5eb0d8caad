// The transform writes each shared schema twice, as input and as output; what no operation refers
// to is left out, so that the document holds only what it says.
interface Document {
  components?: { schemas?: Record<string, unknown> };
}

export function withoutUnused<Given extends object>(document: Given): Given {
  const { components } = document as Document;
  const schemas = components?.schemas;
  if (!schemas) return document;
  let dropped = true;
  while (dropped) {
    const text = JSON.stringify(document);
    const unused = Object.keys(schemas).filter(
      (name) => !text.includes(`"#/components/schemas/${name}"`),
    );
    for (const name of unused) delete schemas[name];
    dropped = unused.length > 0;
  }
  return document;
}
