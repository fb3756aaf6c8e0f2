// Package simulation runs phones and a server through a reproducible run of bad luck and checks that nothing is lost.
//
// Start at [Run]: one seed is one run, in one goroutine, on a clock of its own. Several phones (some with two tabs over
// one storage) tick, count, undo and exchange with the real [sync.Serve] through a network that loses requests and
// answers, delivers late, twice and out of order. Phone clocks are off by days and jump, the server's steps back. Tabs
// are killed before and after every write to storage. Links are taken back or run out, a phone is copied, the server is
// restored from a backup with and without saying so. At the end the faults stop, everybody exchanges, and the run is
// held against a model that knows only what people did:
//
//   - every operation that a phone said was saved is in the log, or waits in quarantine, or is on its phone's list of
//     things that need attention;
//   - all phones and the server hold the same job;
//   - every tally is the sum of its additions that were not taken back;
//   - no operation is overruled by one whose value its author had in sight.
//
// Not simulated: storage that loses a transaction it had confirmed (a phone without power, or one that purges the site);
// a server disk that lies about flushing (the kill test in app/store goes as far as a killed process); the loss of the
// workspace key; two processes on one database; damaged rows; a database restored from a time before a link was made, so
// that its phones are strangers; operations handed in to quarantine after the backup that then replaces the database
// (they stay on their phone's list, which the check accepts; and where the database was put back unannounced, the order
// among what was handed in is not promised); an accepted operation whose only copy beyond a restored
// backup is on a phone whose link was closed meanwhile and that has nothing more to hand in (it never asks again; the check leaves it
// out); real HTTP,
// browsers and IndexedDB; a phone and a server of different versions.
package simulation
