package ask

import (
	"context"
	"errors"
	"fmt"
	"time"

	"firstbolt/cmd/firstbolt/internal/answer"
	"firstbolt/datasets/sheet"
	"firstbolt/model"
	"firstbolt/model/fit"
	"firstbolt/solver"
	"firstbolt/solver/program"
)

// Plan answers `plan`: the best set to buy for one budget, and whether to stay with the bike at all. An error is wrong
// use; whatever else goes wrong comes back as a Failure.
func Plan(ctx context.Context, r Request) (answer.Answer, error) {
	started := time.Now()
	l, q, err := pose(r)
	if err != nil {
		return nil, err
	}
	if l.failure != nil {
		return l.failure, nil
	}
	limited, cancel := limit(ctx, r.TimeLimit)
	defer cancel()
	ans, err := solver.Ask(limited, q)
	if err != nil {
		return failed(ctx, r, err), nil
	}
	f := filler{r: r, shed: l.shed, ans: ans, currency: l.shed.Currency.Code}
	plan, err := f.plan()
	if err != nil {
		return failed(ctx, r, err), nil
	}
	plan.Warnings = append(l.warnings, plan.Warnings...)
	plan.Error = unfinished(r, ans)
	if r.Timed {
		taken := answer.Seconds(time.Since(started).Milliseconds())
		plan.Proof.Seconds = &taken
	}
	return plan, nil
}

// limit ends the context after the rider's time limit.
func limit(ctx context.Context, after time.Duration) (context.Context, context.CancelFunc) {
	if after <= 0 {
		return ctx, func() {}
	}
	return context.WithTimeout(ctx, after)
}

// question puts a request to the solver. Its errors are wrong use.
func question(r Request, shed *model.Shed) (solver.Question, error) {
	q := solver.Question{Shed: shed, Bike: r.Bike}
	if !shed.Rider.Budget.Known {
		return q, wrong{"no budget anywhere: say --budget 120, or write a row budget,120 into rider.csv"}
	}
	q.Budget = shed.Rider.Budget.Value
	var err error
	if q.Bike, err = bikeNamed(r.Bike, shed); err != nil {
		return q, err
	}
	if q.Options.Allow, err = allowed(r.Allow, shed.Tables); err != nil {
		return q, err
	}
	q.Options.Sure, q.Options.Most = r.Sure, r.Most
	if r.Most == 0 {
		q.Options.Most = shed.Rider.MostParts.Or(0)
	}
	q.Lead, q.Confirm, err = engines(r.Engine)
	return q, err
}

// bikeNamed is the name in bikes.csv that --bike means.
func bikeNamed(name string, shed *model.Shed) (string, error) {
	if name == "" {
		return "", nil
	}
	var known []string
	for i := range shed.Bikes {
		if sheet.Key(shed.Bikes[i].Name) == sheet.Key(name) {
			return shed.Bikes[i].Name, nil
		}
		known = append(known, shed.Bikes[i].Name)
	}
	return "", wrong{fmt.Sprintf("--bike: found %q, want the name of a bike in bikes.csv; %s", name, sheet.DidYouMean(name, known, "they are "+quoted(known)))}
}

// allowed checks the names of fit rules that the rider allows. Danger rules are never among them.
func allowed(names []string, t *model.Tables) ([]string, error) {
	for _, name := range names {
		rules := fit.Named(t, name)
		switch {
		case len(rules) == 0:
			var known []string
			for i := range t.Rules {
				known = append(known, t.Rules[i].ID)
			}
			return nil, wrong{fmt.Sprintf("--allow: there is no fit rule %q; %s", name, sheet.DidYouMean(name, known, "the answers name the rules on which practice disagrees"))}
		case rules[0].Severity == model.Danger:
			return nil, wrong{fmt.Sprintf("--allow %s: this rule keeps people from getting hurt and cannot be allowed away", name)}
		case !fit.Disputed(t, rules[0]):
			return nil, wrong{fmt.Sprintf("--allow %s: what breaks this rule does not go together; only rules on which practice disagrees can be allowed", name)}
		}
	}
	return names, nil
}

// failed turns an error of the solver into an answer.
func failed(ctx context.Context, r Request, err error) answer.Answer {
	var clash *solver.Clash
	var stopped *solver.Stopped
	var faulty *solver.Faulty
	switch {
	case errors.As(err, &clash):
		f := fail(r, answer.Clash, fmt.Sprintf("Your wishes for %s cannot all be met.", clash.Bike))
		for _, w := range clash.Wishes {
			f.Error.Complaints = append(f.Error.Complaints, answer.Complaint{Where: "wishes", Wanted: w, Text: "wish: " + w})
		}
		return f
	case errors.As(err, &stopped) && ctx.Err() != nil:
		return fail(r, answer.Interrupted, "Interrupted before "+found(r)+".")
	case errors.As(err, &stopped):
		return fail(r, answer.Stopped, "The time limit was reached before "+found(r)+"; allow more with --time-limit.")
	case errors.As(err, &faulty):
		return fail(r, answer.Sheets, "The sheets cannot be used as they are: "+faulty.Error()+".")
	default:
		return fail(r, answer.Engine, "An engine or a check failed, so there is no answer: "+err.Error()+".")
	}
}

// found is what a command looks for.
func found(r Request) string {
	if r.Command == "plan" {
		return "any plan was found"
	}
	return "everything was worked out"
}

// unfinished is the error of a plan that is not a full answer: stopped early, or engines that disagree under --strict.
func unfinished(r Request, ans *solver.Answer) *answer.Error {
	switch {
	case ans.Proof.Status == program.Stopped:
		return &answer.Error{Code: answer.Stopped, Sentence: "Stopped early: this is the best plan found so far; what is not proved stands under CHECKED HOW."}
	case r.Strict && ans.Proof.Disagreement != "":
		return &answer.Error{Code: answer.Disagreement, Sentence: "The engines disagree, and --strict asks for agreement: " + ans.Proof.Disagreement + "."}
	default:
		return nil
	}
}
