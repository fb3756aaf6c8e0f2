// Package simulation exposes phones and a server to random, reproducible faults and checks that nothing is lost.
//
// Start at [Run]: one seed is one run, in one goroutine, on a clock of its own. Several phones, each with one to three
// tabs over one storage, tick, count, undo and exchange with the real [sync.Serve] through a network that loses
// requests and answers, delivers late, twice and out of order. Each tab has its own [phone.Phone] in memory. A commit
// succeeds only if the storage holds the token that the tab last read, and it writes a new token. A tab whose commit
// fails reloads and tries again, as pwa/device does. Commits succeed while their answer is lost; another tab's commit
// tears a load; tabs are killed before and after every write. Storages fill up and refuse; storages are emptied, under
// a running tab and while none runs; journals are lost. Phone clocks are off by days and jump, the server's clock steps
// back. Links are revoked or expire, owner devices are signed out, the job is archived for more than thirty days, a
// phone is copied, the server is restored from a backup, announced or not. In half of the runs an insider with a link
// posts hostile requests. At the end the faults stop, everybody exchanges, and a model that knows only what people did
// and were told checks the run:
//
//   - every operation that the phone reported as saved or waiting is in the log, or was refused for good and is on
//     its phone's list of what needs attention; or its last copy was destroyed ([Destroyed] counts these);
//   - no tap counts twice;
//   - all phones with access and the server hold the same job;
//   - every tally is the sum of its additions that were not undone;
//   - no operation is overruled by one that its author had seen;
//   - a closed session stays closed, and the quarantine survives an announced restore;
//   - the log holds only operations that somebody may write: each is unchanged, none lies in the future, and the rules
//     allow all of the insider's.
//
// A copy of an operation is in a phone's storage, in its journal, in a running tab, or on the server. The run looks for
// one whenever something destroys copies. An operation without a copy is destroyed: its phone's storage and journal are
// gone, for example, and the server was restored from before it. [Stranded] counts operations that after a restore are
// only on phones whose link is closed: those have nothing more to send and never hear of the restore. [Apart] counts
// operations that reached the server before one that their author had seen, from a phone whose storage was emptied. The
// order of a phone's operations is not promised, and not checked, once its storage was emptied: its numbers start
// again, and tabs bring back what they held at different times. Nor is it checked for operations in quarantine when the
// server was restored.
//
// [Unkept] lists rules that app/sync does not keep yet, and [Options.Pending] those of a server. A run skips checks
// that would only show that, and its test says so.
//
// Not simulated: storage that loses single rows, or a transaction it had confirmed; a server disk that lies about
// flushing (the kill test in app/store only kills a process); the loss of the workspace key; two processes on one
// database; damaged rows; a database restored from before a link was made, whose phones are then unknown; an insider
// who, after a restore, takes the id of a lost operation before its phone brings it back (content_test.go of app/sync
// checks that the phone notes it), or, after an unannounced one, the id of a phone of which the server has no record;
// floods up to a log's limits; real HTTP, browsers and IndexedDB; a phone and a server of different versions.
package simulation
