package press

import (
	"cutgate/internal/worksheet"
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
)

var steamOnOneDot = &rule.Rule{
	ID:    "press/steam-on-one-dot",
	Title: "steam on a one-dot cloth",
	Level: finding.Warning,
	Fix:   rule.Always,
	Asked: true,
	Each:  runSteamOnOneDot,
	Doc: `
Checks
Whether steam is stated where one of the item's cloths takes only one dot.

Because
Steam carries more heat into the cloth than a dry sole plate. Acetate, acrylic and nylon
shrink, cockle and lose their finish for good.

Working
Steam is safe from two dots up.

Correction
Likely: no steam.

Source
ISO 3758:2012, from memory; Sioen, wash and care symbols.
`,
}

func runSteamOnOneDot(p *rule.Pass, it *worksheet.Item) {
	q := it.Get(worksheet.PressSetting)
	steam := &it.Order.Press.Steam
	if !steam.Value || q == nil {
		return
	}
	setting, c := p.Tables.Setting(int(q.Value.N)), p.Sheet.Cloth(q.Of)
	if setting == nil || setting.Steam || c == nil {
		return
	}
	p.Report(finding.Finding{
		At:      steam.At,
		Message: fmt.Sprintf("Steam can spoil a one-dot cloth, and %s allows no more; press it dry.", weakest(c, q.Value.N)),
		Stated:  "true", Corrected: "false", Source: setting.Source,
		Fixes: p.Likely(steam.Node, "false", "Press without steam"),
	})
}
