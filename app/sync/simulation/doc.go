// Package simulation runs phones and a server through a reproducible run of bad luck and checks that nothing is lost.
//
// Start at [Run]: one seed is one run, in one goroutine, on a clock of its own. Several phones, each with one to three
// tabs over one storage, tick, count, undo and exchange with the real [sync.Serve] through a network that loses
// requests and answers, delivers late, twice and out of order. Each tab has its own [phone.Phone] in memory. A commit
// succeeds only if the storage holds the token that the tab last read, and leaves a token of its own; a tab that was
// beaten loads anew and acts again, as pwa/device does. Commits go through while their answer is lost; loads are torn
// by another tab's commit; tabs are killed before and after every write. Storages fill up and refuse; storages are
// emptied, under a running tab and while none runs; journals are lost. Phone clocks are off by days and jump, the
// server's steps back. Links are taken back or run out, owner devices are ended, the job is archived for more than
// thirty days, a phone is copied, the server is restored from a backup with and without saying so. In half of the runs
// an insider with a link posts by hand what no app would. At the end the faults stop, everybody exchanges, and the run
// is held against a model that knows only what people did and were told:
//
//   - every operation that the phone reported as saved or waiting is in the log, or was refused for good and is on
//     its phone's list of what needs attention; or its last copy was destroyed ([Destroyed] counts these);
//   - no tap counts twice;
//   - all phones that are let in and the server hold the same job;
//   - every tally is the sum of its additions that were not taken back;
//   - no operation is overruled by one whose value its author had in sight;
//   - whoever was closed stays closed, and what waited for the owner outlives an announced restore;
//   - the log holds only what somebody may write: each operation is unchanged, none lies in the future, and the rules
//     allow all of the insider's.
//
// A copy of an operation is in a phone's storage, in its journal, in a tab that runs, or on the server. The run looks
// for one whenever something destroys copies, and calls an operation destroyed when there is none left: its phone's
// storage and journal are gone, and the server was restored from before it, say. [Stranded] counts operations that
// after a restore are only on phones whose link is closed: those have nothing more to hand in and never hear of the
// restore. [Apart] counts operations that reached the server before one that their author had seen, from a phone whose
// storage was emptied. The order among what a phone made is not promised, and not checked, once its storage was
// emptied: its numbers begin anew, and tabs bring back what they held at different times. Nor is it for what waited for
// the owner when the server was restored.
//
// Rules that the code under test does not keep yet are listed by [Unkept], and by [Options.Pending] for a server; a run
// leaves out what would only show that, and its test says so.
//
// Not simulated: storage that loses single rows, or a transaction it had confirmed; a server disk that lies about
// flushing (the kill test in app/store goes as far as a killed process); the loss of the workspace key; two processes
// on one database; damaged rows; a database restored from a time before a link was made, so that its phones are
// strangers; an insider who, after a restore, takes the id of an operation that the server has lost before its phone
// brings it back (content_test.go of app/sync holds that it is noted then), or, after one that was not announced, the
// id of a phone of which the server has no record left; floods up to a log's limits; real HTTP, browsers and IndexedDB;
// a phone and a server of different versions.
package simulation
