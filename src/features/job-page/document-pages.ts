import type { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { invalid } from "../../errors.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { cutTo, requireForm } from "../../web/form.ts";
import { filledForm, withFormFiles } from "../../web/form-files.ts";
import { signedIn } from "../../web/session.ts";
import { receiveDocument, removeDocument } from "../documents/keep-document.ts";
import { DOCUMENT_BYTES_MOST, DocumentName, DocumentParams } from "../documents/schemas.ts";

export const jobDocumentPages: Feature = async (app, { db, config, now }) => {
  await withFormFiles(app, DOCUMENT_BYTES_MOST, (within, bodyLimit) => {
    within.post("/jobs/:id/documents", {
      bodyLimit,
      schema: { operationId: "documentForm", hide: true, params: IdParams },
      handler: async (request, reply) => {
        const { id: jobId } = request.params as z.infer<typeof IdParams>;
        const { fields, files } = await filledForm(request);
        const [file] = files;
        if (!file) throw invalid("/body/file", "Choose a PDF, JPEG or PNG to send.");
        const said = fields.name?.trim() || file.name.split(/[\\/]/).at(-1);
        const { name } = requireForm(DocumentName, { name: cutTo(said ?? "", 160) || "Document" });
        const incoming = { jobId, name, bytes: file.bytes };
        await receiveDocument(db, config, signedIn(request), incoming, now());
        return reply.redirect(`/jobs/${jobId}#documents`, 303);
      },
    });
  });

  app.post("/jobs/:id/documents/:sha256/removal", {
    schema: { operationId: "removeDocumentForm", hide: true, params: DocumentParams },
    handler: async (request, reply) => {
      const { firmId, personId } = signedIn(request);
      const { id: jobId, sha256 } = request.params;
      await inFirm(db, firmId, (tx) => removeDocument(tx, { jobId, sha256 }, personId, now()));
      return reply.redirect(`/jobs/${jobId}#documents`, 303);
    },
  });
};
