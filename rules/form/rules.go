package form

import "cutgate/internal/rule"

// Rules are the topic's rules: what can't be read at all, then names, then
// values, then what is odd about a table, then what names lead to.
func Rules() []*rule.Rule {
	return []*rule.Rule{
		unreadable,
		computed,
		duplicateField,
		unknownField,
		otherWord,
		missingField,
		wrongKind,
		unknownWord,
		badSpelling,
		oddUnit,
		outOfSense,
		exchanged,
		blankChoice,
		dateForFraction,
		fromFormula,
		formulaWithoutValue,
		mergedCells,
		splitNumber,
		unheadedColumn,
		sharedCloth,
		unknownCloth,
		pieceOutOfPlace,
		pieceMisnamed,
		misreadChoice,
		valuesDisagree,
		outcomeOff,
		duplicateID,
		tooLittleGiven,
		notUsed,
	}
}
