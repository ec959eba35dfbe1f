package app

import (
	"context"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
)

// Recall is everything that contains what somebody asks about, as the records stand now, and what does not fit about those lots. Errors are
// *lots.UnknownError for a lot that nobody named, and *lots.CodeError for a code that is not clear.
func (r *Records) Recall(ctx context.Context, a lots.Ask, at record.Instant) (report lots.Report, found finding.List, err error) {
	err = r.Lots(ctx, func(s *lots.State, all finding.List) (err error) {
		if report, err = s.Report(a, at); err != nil {
			return err
		}
		var ids []record.Lot
		for _, l := range report.Lots {
			ids = append(ids, l.Lot)
		}
		found = lots.About(all, ids...)
		return nil
	})
	return report, found, err
}

// Story is a lot from its beginning to now, by its name or the code of a pack, and what of it does not fit. Errors are as of Recall.
func (r *Records) Story(ctx context.Context, code string) (story lots.Story, found finding.List, err error) {
	err = r.Lots(ctx, func(s *lots.State, all finding.List) (err error) {
		if story, err = s.Story(code); err == nil {
			found = lots.About(all, story.Lot)
		}
		return err
	})
	return story, found, err
}

// Rule is the tables of the traceability rule about the lots that an Ask means; about all when it asks nothing. Errors are as of Recall.
func (r *Records) Rule(ctx context.Context, a lots.Ask, house lots.House) (tables []lots.RuleTable, err error) {
	err = r.Lots(ctx, func(s *lots.State, _ finding.List) error {
		meant, err := s.Find(a)
		if err == nil && (a.Empty() || len(meant.Lots) > 0) {
			tables, err = s.Rule(meant.Lots, house)
		}
		return err
	})
	return tables, err
}

// Drills are the recalls that were begun, in earnest or to practise, the latest first.
func (r *Records) Drills(ctx context.Context) (drills []lots.Drill, err error) {
	err = r.Lots(ctx, func(s *lots.State, _ finding.List) error {
		for d := range s.Drills() {
			drills = append(drills, d)
		}
		return nil
	})
	return drills, err
}
