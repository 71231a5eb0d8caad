export const claim = {
  "claim.title": "Reclamaciones de garantía",
  "claim.listNote":
    "Una reclamación se abre desde la página de su unidad. Las últimas van primero.",
  "claim.reference": "Reclamación",
  "claim.fault": "Qué falla",
  "claim.faultHint": "Qué se vio y se midió, y desde cuándo.",
  "claim.opened": "Abierta",
  "claim.sent": "Enviada",
  "claim.answered": "Respondida",
  "claim.ended": "Terminada",
  "claim.none": "No se ha abierto ninguna reclamación.",
  "claim.noneWayOut": "Abra una desde la garantía de una unidad.",
  "claim.noneOfUnit": "Ninguna reclamación para esta unidad.",
  "claim.new": "Abrir una reclamación",
  "claim.newFor": "Reclamación para {serial}",
  "claim.what": "La reclamación",
  "claim.caution":
    "Una batería hinchada, caliente, con fugas o con humo: deténgase, manténgase lejos y " +
    "siga las instrucciones del fabricante antes de reclamar nada. Prevalecen las normas " +
    "locales y la práctica autorizada.",
  "claim.job": "Trabajo cuyo registro la acompaña",
  "claim.jobHint": "Su libro guarda los pasos de la reclamación.",
  "claim.openIt": "Abrir como borrador",
  "claim.one": "Reclamación {reference}",
  "claim.swapOf": "{serial}, puesta en el cambio del {when}",
  "claim.answeredBy": "respondió a la reclamación",
  "claim.cameFor": "Llegó en respuesta a una reclamación por",
  "claim.evidence": "Lo que la acompaña",
  "claim.noEvidence": "Aún no hay nada adjunto.",
  "claim.bagNote":
    "El paquete contiene todos los trabajos de la unidad y se comprueba con sha256sum y " +
    "openssl. Su archivo se guarda siete días; descárguelo y envíelo al fabricante.",
  "claim.attachBag": "Hacer y adjuntar el paquete de pruebas de la unidad",
  "claim.document": "Documento de los trabajos de la unidad",
  "claim.attachDocument": "Adjuntar el documento",
  "claim.noDocuments":
    "Los trabajos de la unidad no tienen documentos. Los documentos se añaden en la " +
    "página de un trabajo.",
  "claim.detach": "Quitar",
  "claim.detachOne": "Quitar {name}",
  "claim.nextStep": "Paso siguiente",
  "claim.stepNote": "Un paso no se puede deshacer.",
  "claim.noteHint": "Qué respondió el fabricante, o cómo se resolvió.",
  "claim.replacement": "Cambio que la respondió",
  "claim.noSwap":
    "No hay ningún cambio de esta unidad registrado. Si uno responde a la reclamación, " +
    "regístrelo antes de resolverla.",
  "claim.state.draft": "borrador",
  "claim.state.sent": "enviada",
  "claim.state.accepted": "aceptada",
  "claim.state.refused": "rechazada",
  "claim.state.settled": "resuelta",
  "claim.state.withdrawn": "retirada",
  "claim.step.sent": "Enviada al fabricante",
  "claim.step.accepted": "Aceptada por el fabricante",
  "claim.step.refused": "Rechazada por el fabricante",
  "claim.step.settled": "Resuelta",
  "claim.step.withdrawn": "Retirar",
} as const;
