-- The second checksum of an evidence bag (RFC 8493), worked out when the photo comes in, so that an
-- export of thousands hashes each of them once. Photos from before are hashed as they leave.
ALTER TABLE "photo" ADD COLUMN "sha512" TEXT CHECK ("sha512" ~ '^[0-9a-f]{128}$');
