package sheet

// childWords are the usual cautions for children's clothes. Standards: small
// parts 16 CFR 1501 (figures from memory); drawstrings ASTM F1816 and 16 CFR
// 1120.3 (read), EN 14682 (from memory); nightwear 16 CFR 1615 and 1616 (read),
// EN 14878 (from memory).
const childWords = "For a child. Cords: none at hood or neck; at waist or hem no more than 75 mm outside the channel at its full width, no " +
	"knots or toggles at the ends, sewn down at the middle of the back (ASTM F1816, 16 CFR 1120.3; EN 14682 is stricter in part). " +
	"Small parts: buttons, studs and sliders must hold a firm pull, and for under three years must not fit the small parts cylinder, " +
	"31.7 mm across (16 CFR 1501). Nightwear and dressing gowns: cloth, fit and trim are regulated for their burning (16 CFR 1615 and 1616, " +
	"EN 14878). Count pins and needles at the end. Check your local code."
