// Package store keeps jobs, logs, sessions and links in one bbolt file, and is the only package that knows bbolt. It
// knows nothing of HTTP or pages; what enters a log is decided by app/sync.
//
// Start at [Open]. A directory holds garlandry.db, the plain-text journal ops-YYYYMM.ndjson that is written and flushed
// with every change, closed.ndjson with what was revoked, ended or spent for good, workspace.key (which seals
// operations and is kept apart from the database), and invites. A change is on disk, in journal and database, before
// any method that makes it returns. [Restore] brings back a backup, [Replay] makes the database anew from the journal.
// Neither opens again what closed.ndjson closes, nor loses what waits for the owner.
package store
