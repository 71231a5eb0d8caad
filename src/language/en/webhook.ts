export const webhook = {
  "webhook.disabledSubject": "A webhook was disabled",
  "webhook.disabledText":
    "Nothing could be delivered for five days to: {urls}. Mend the receiver, then use the " +
    "webhook again; what failed can be sent again.",
} as const;
