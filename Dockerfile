# syntax=docker/dockerfile:1

# The development packages make the database's client here, and stay here.
FROM node:24-slim AS build
WORKDIR /app
COPY package.json package-lock.json prisma.config.ts ./
COPY prisma prisma
RUN npm ci
# --omit=dev would keep the development packages that others name as optional peers: a package list
# without them, at the locked versions, leaves them out.
RUN npm pkg delete devDependencies && npm install --package-lock-only --ignore-scripts

FROM node:24-slim
ENV NODE_ENV=production HOST=0.0.0.0 PORT=3000 DATA_DIR=/data
WORKDIR /app
COPY --from=build /app/package.json /app/package-lock.json ./
RUN npm ci --omit=dev --ignore-scripts && npm cache clean --force
COPY prisma/migrations prisma/migrations
COPY templates templates
COPY src src
COPY --from=build /app/src/db/generated src/db/generated
# The program's own files stay root's: the account that runs it may write to /data only.
RUN mkdir /data && chown node:node /data
USER node
VOLUME /data
EXPOSE 3000
HEALTHCHECK --interval=10s --timeout=5s --start-period=30s --retries=3 CMD ["node", "-e", \
  "fetch(`http://127.0.0.1:${process.env.PORT}/health/ready`).then((reply) => process.exit(reply.ok ? 0 : 1), () => process.exit(1))"]
CMD ["node", "src/main.ts"]
