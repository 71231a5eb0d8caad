/** A PDF 1.4 of one A4 page with a few lines of text (ISO 32000-1 7.5, from memory). */
export function onePagePdf(lines: readonly string[]): Buffer {
  const shown = lines.map((line) => `(${line.replaceAll(/[\\()]/g, "\\$&")}) Tj T*`).join("\n");
  const content = `BT /F1 14 Tf 22 TL 72 760 Td\n${shown}\nET`;
  const objects = [
    "<< /Type /Catalog /Pages 2 0 R >>",
    "<< /Type /Pages /Kids [3 0 R] /Count 1 >>",
    "<< /Type /Page /Parent 2 0 R /MediaBox [0 0 595 842] /Contents 4 0 R " +
      "/Resources << /Font << /F1 5 0 R >> >> >>",
    `<< /Length ${content.length} >>\nstream\n${content}\nendstream`,
    "<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica >>",
  ];
  let text = "%PDF-1.4\n";
  const places = objects.map((object, index) => {
    const place = text.length;
    text += `${index + 1} 0 obj\n${object}\nendobj\n`;
    return `${String(place).padStart(10, "0")} 00000 n \n`;
  });
  const table = `xref\n0 ${objects.length + 1}\n0000000000 65535 f \n${places.join("")}`;
  const trailer = `trailer\n<< /Size ${objects.length + 1} /Root 1 0 R >>\n`;
  return Buffer.from(`${text}${table}${trailer}startxref\n${text.length}\n%%EOF\n`, "latin1");
}
