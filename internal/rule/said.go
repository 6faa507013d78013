package rule

import (
	"regexp"
	"slices"
	"strings"

	"cutgate/internal/length"
	"cutgate/internal/worksheet"
)

// said is a condition as people would say it: "the drop is more than the height".
func said(when string) string {
	var clauses []string
	parts := worksheet.Conditions(when)
	about := "" // what the clause before is about
	for _, c := range parts {
		if !needed(c, parts) {
			continue
		}
		says := clause(c)
		subject, is, ok := strings.Cut(says, " is ")
		if ok && subject == about {
			clauses[len(clauses)-1] += " and " + is
			continue
		}
		about = subject
		clauses = append(clauses, says)
	}
	if last := len(clauses) - 1; last > 1 {
		return strings.Join(clauses[:last], ", ") + ", and " + clauses[last]
	}
	return worksheet.All(clauses)
}

// needed reports whether a clause says more than the others: that a term is there goes
// without saying where another clause compares it.
func needed(c string, all []string) bool {
	if comparison.MatchString(c) || strings.Contains(c, ": ") || strings.HasPrefix(c, "no ") {
		return true
	}
	return !slices.ContainsFunc(all, func(other string) bool {
		return other != c && strings.Contains(other, "{") && strings.Contains(other, strings.TrimSuffix(c, " stated"))
	})
}

var (
	comparison = regexp.MustCompile(`^(.*) ([<>≤≥=≠]) (.*)$`)
	braced     = regexp.MustCompile(`\{([^}]*)\}`)
	share      = regexp.MustCompile(`^\{([^}]*)\} ÷ (\d+)$`)
	shares     = regexp.MustCompile(`^\{([^}]*)\} × (\d+) ÷ (\d+)$`)
	times      = regexp.MustCompile(`^(\d+) × \{([^}]*)\}$`)
	timesAfter = regexp.MustCompile(`^\{([^}]*)\} × (\d+)$`)
	fraction   = regexp.MustCompile(`^(\d+) ÷ (\d+)$`)
)

var compares = map[string]string{"<": "is less than", ">": "is more than", "≤": "is no more than", "≥": "is at least", "=": "is", "≠": "is not"}

var comparesToNothing = map[string]string{">": "is more than 0", "≤": "is 0 or less", "=": "is 0"}

// clause is one part of a condition.
func clause(c string) string {
	if says, ok := sentences[c]; ok {
		return says
	}
	if m := comparison.FindStringSubmatch(c); m != nil {
		if m[3] != "0" {
			return amount(m[1]) + " " + compares[m[2]] + " " + amount(m[3])
		}
		if term := strings.Trim(m[1], "{}"); m[2] == ">" && (plural(term) || sentences[term] != "") {
			return there(term)
		}
		return amount(m[1]) + " " + comparesToNothing[m[2]]
	}
	if term, words, ok := strings.Cut(c, ": "); ok {
		words = strings.Join(strings.Split(words, "/"), " or ")
		switch {
		case term == "made":
			return "it is " + words
		case plural(term):
			return "the " + term + " are " + words
		}
		return "the " + term + " is " + words
	}
	if term, ok := strings.CutPrefix(c, "no "); ok {
		if plural(term) {
			return "there are no " + term
		}
		return called(term) + " is not stated"
	}
	return there(c)
}

// there says that a term is there.
func there(term string) string {
	if says, ok := sentences[term]; ok {
		return says
	}
	if plural(term) {
		return "there are " + term
	}
	return called(term) + " is known"
}

var nth = map[string]string{"2": "half", "3": "a third of", "4": "a quarter of", "5": "a fifth of", "8": "an eighth of"}

// amount is one side of a comparison.
func amount(f string) string {
	if m := share.FindStringSubmatch(f); m != nil && nth[m[2]] != "" {
		return nth[m[2]] + " " + called(m[1])
	}
	if m := shares.FindStringSubmatch(f); m != nil {
		return m[2] + "/" + m[3] + " of " + called(m[1])
	}
	n, term := "", ""
	if m := times.FindStringSubmatch(f); m != nil {
		n, term = m[1], m[2]
	} else if m := timesAfter.FindStringSubmatch(f); m != nil {
		n, term = m[2], m[1]
	}
	switch n {
	case "":
	case "2":
		return "twice " + called(term)
	default:
		return n + " times " + called(term)
	}
	if m := fraction.FindStringSubmatch(f); m != nil {
		if m[2] == "100" {
			return m[1] + "%"
		}
		if r, err := length.ParseRatio(m[1] + "/" + m[2]); err == nil {
			return r.Format(2)
		}
	}
	f = strings.NewReplacer(" + ", " plus ", " - ", " less ", "2 × {", "twice {").Replace(f)
	return braced.ReplaceAllStringFunc(f, func(term string) string { return called(term[1 : len(term)-1]) })
}

// called is a term as people call it, with its article.
func called(term string) string {
	if name, ok := names[term]; ok {
		return name
	}
	if name := worksheet.Spoken(term); name != "" {
		return "the " + name
	}
	name := strings.TrimSuffix(term, " stated")
	if of, ok := strings.CutSuffix(name, " least"); ok {
		return "the least " + of
	}
	if of, ok := strings.CutSuffix(name, " most"); ok {
		return "the largest " + of
	}
	if of, ok := strings.CutPrefix(name, "face "); ok {
		name = "cloth's " + strings.TrimPrefix(of, "washed ")
	}
	if plural(name) {
		return "the number of " + name
	}
	return "the " + name
}

// plural reports whether a term is a number of things.
func plural(term string) bool {
	last := term[strings.LastIndexByte(term, ' ')+1:]
	return names[term]+worksheet.Spoken(term) == "" && strings.HasSuffix(last, "s") && !strings.HasSuffix(last, "ss")
}

// Names of terms that are not what people call them, or are not as many things as they
// sound.
var names = map[string]string{
	"around slack":             "the slack",
	"bought piping":            "the length of piping to buy",
	"columns least":            "the least that could be meant",
	"columns most":             "the widest it may be",
	"curve turn":               "the deepest turn for a curve",
	"edge hem":                 "what one hem takes",
	"edge limit":               "the least distance allowed",
	"edge turn":                "the turn of the hem",
	"face motif across":        "the repeat across the cloth",
	"flap":                     "the depth of the pocket",
	"flap least":               "the least that holds the pillow",
	"gap":                      "the gap left to turn it",
	"heading allowance stated": "the allowance for the heading",
	"hook stated":              "the height of the hook",
	"inside width":             "the inside width of the box",
	"lap limit":                "the longest drop that stays out of laps",
	"liner below rim":          "the liner's reach below the rim",
	"low room":                 "an eighth of the curtain",
	"mattress covered":         "what covers the mattress",
	"opening":                  "the width of the opening",
	"opening turn":             "the turn of the opening's hem",
	"pad around":               "the measurement round the bolster",
	"piece cut width":          "the piece's cut width",
	"piping seam":              "the piping's seam allowance",
	"spacing most":             "the widest it may be",
	"pleat least":              "the least for one",
	"point clear":              "the clearance of the corners",
	"projection":               "how far the hanging beneath it stands out",
	"ring limit":               "the longest cord allowed between rings",
	"seam slack":               "a small step",
	"shrinks apart":            "the difference in shrinkage",
	"space between rods":       "the space between two rods",
	"square within":            "what still passes for square",
	"strip across":             "the width of the piping strip",
	"strip seam":               "its seam at the zip",
	"tallest table":            "what people stand at",
	"table longer by":          "the difference between the two sides of the table",
	"usual closed":             "the usual part that is sewn shut",
	"weights stated":           "the number of weights",
	"whole across":             "the whole width to cut",
	"width in recess":          "the width that clears the recess",
	"zip strip depth":          "the depth of a zip strip",
}

// Sentences for conditions that would not be said by their terms' names.
var sentences = map[string]string{
	"boxing run: along":     "the boxing is run along the cloth",
	"by turns saves":        "cutting by turns saves cloth",
	"cord":                  "there is a cord",
	"cords by US custom":    "the market is the US or Canada or is not stated",
	"face repeat":           "the cloth has a pattern",
	"finished width":        "the finished width is known",
	"front along":           "the backs overlap",
	"{liner below rim} ≤ 0": "the liner ends at or above the rim",
	"{liner below rim} + {liner shorter} > 0": "the curtain reaches below it",
	"layout: equal":               "it is joined of equal pieces",
	"layout: one piece":           "it is in one piece",
	"liner unlike":                "the liner's holes are not as many as the curtain's, or not as far apart",
	"lining across":               "there is a lining",
	"motif: center":               "the motif is to be centered",
	"nap apart":                   "one of the two cloths has a nap and the other has none",
	"nap: one way":                "the nap runs one way",
	"number of sections: even":    "the number of sections is even",
	"pad lacks":                   "the pad lacks a size that a cover of this style needs",
	"piping run":                  "there is an edge to pipe",
	"pleat ends: corners":         "the outer pleats are at the corners",
	"posts":                       "the bed has posts",
	"quilted":                     "it is quilted",
	"run stated":                  "the order says so",
	"seated":                      "people sit at it",
	"sections stated":             "the sections are stated",
	"shape: shaped":               "the band is shaped",
	"unlapped":                    "the closure is one that a cover of this style has no room for",
	"weights kind: single":        "the weights are single ones",
	"widths stated":               "widths are stated",
	"{joins} = 1":                 "it has one join",
	"{piping seam} ≠ {allowance}": "the piping's seam allowance is not the cover's",
	"no pleats":                   "no number of pleats is stated",
	"{weights} > 0":               "the hem takes some",
	"run: along":                  "the cloth is turned",
	"the larger of ({duvet width} ÷ {finished width}, {duvet length} ÷ {finished length}) > 1":                "the duvet is wider or longer than the cover",
	"the larger of ({finished width} - {duvet width}, {finished length} - {duvet length}) > {slack most}":     "the cover is wider or longer than the duvet by more than the largest slack",
	"the larger of ({finished width} - {duvet width}, {finished length} - {duvet length}) ≤ 4 × {slack most}": "by no more than 4 times that",
	"the larger of ({finished width} - {duvet width}, {finished length} - {duvet length}) > 4 × {slack most}": "the cover is wider or longer than the duvet by more than 4 times the largest slack",
}
