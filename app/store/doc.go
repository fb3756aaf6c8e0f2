// Package store keeps jobs, logs, sessions and links in one bbolt file, and is the only package that knows bbolt. It
// knows nothing of HTTP or pages. Package app/sync/server decides what enters a log.
//
// Start at [Open]. A directory holds garlandry.db; the plain-text journal ops-YYYYMM.ndjson, flushed with every change;
// closed.ndjson with what was revoked, ended or spent for good; workspace.key, which seals operations; and invites. Any
// method that makes a change returns once it is on disk, in journal and database. [Restore] restores a backup, [Replay]
// rebuilds the database from the journal. Neither reopens what closed.ndjson closes, nor loses what waits for the
// owner.
package store
