// Package ledgertest tests any implementation of [server.Ledger]: the ledger itself, and the server's rules of an
// exchange over it. Start at [Run].
package ledgertest
