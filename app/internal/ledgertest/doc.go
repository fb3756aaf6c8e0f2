// Package ledgertest is the one suite that every [sync.Ledger] passes, whatever keeps it: the ledger's own promises,
// and the server's rules of an exchange over it. Start at [Run]. It knows nothing of any particular ledger.
package ledgertest
