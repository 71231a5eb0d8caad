-- When somebody else set a person's password: it is good for some days, within which its person is to
-- choose another. Empty for one's own, and for all from before.
ALTER TABLE "person" ADD COLUMN "password_given_at" TIMESTAMPTZ(3);
