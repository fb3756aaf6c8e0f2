package store

import (
	"strings"

	"garlandry/app/job"
	"garlandry/app/sync"

	"go.etcd.io/bbolt"
)

// Handed lists the ends of the logs that a closed session may send to, and how many of its operations wait there.
// For a helper's link that is its job's log; for an owner's device, the logs where something waits. It reveals nothing
// else.
func (s *Store) Handed(session Session) ([]sync.HandedLog, error) {
	var all []sync.HandedLog
	err := s.db.View(func(tx *bbolt.Tx) error {
		current, err := s.refresh(tx, session)
		if err != nil {
			return err
		}
		return tx.Bucket(bucketLogs).ForEachBucket(func(name []byte) error {
			log := string(name)
			own := strings.HasSuffix(log, sync.OwnSuffix)
			if own && current.Role != job.Owner || current.Job != "" && current.Job != jobOf(log) {
				return nil
			}
			l, _ := s.ledger(tx, log)
			held, _, err := l.HeldBy(current.ID)
			if err != nil || held == 0 && current.Job == "" {
				return err
			}
			head, err := l.Head()
			all = append(all, sync.HandedLog{Log: log, Epoch: head.Epoch, Seq: head.Seq, Hash: head.Hash, Held: held})
			return err
		})
	})
	return all, err
}
