package syntax

import (
	"slices"
	"strings"
)

// A Word is a statement or a keyword of the language, as it is explained to a
// builder.
type Word struct {
	Name    string
	Also    []string // other names that lead here
	Form    string   // how it is written
	Summary string
	Example string // the text of a working block
}

// Words are all that can be explained, statements first.
func Words() []Word { return slices.Clone(words) }

var words = []Word{
	{Name: "definition", Also: []string{"="}, Form: "name [unit] = expression",
		Summary: "Defines a quantity. The unit in brackets is what it is shown in and a check of its dimension; without one a fitting unit is chosen. A name is defined once and may be used above its definition. What stands behind # is its note.",
		Example: "V_full = 10 V                # read on the bench meter\nE_full [Wh] = 1/2 * 12.5 F * V_full^2"},
	{Name: "function", Form: "f(x [m/s], n) [W] = expression",
		Summary: "Defines a function of your own. Units are optional; without them its dimensions follow each call. It may use the quantities of the worksheet, and it may not call itself.",
		Example: "drag_power(v [m/s], D [N]) [W] = v * D\nP_glide = drag_power(7 m/s, 0.4 N)"},
	{Name: "limit", Form: plainForm("limit"),
		Summary: "A bound that the build must keep: one comparison, or a <= b <= c. It is listed with what is worked, what is allowed and the headroom (allowed - worked) / abs(allowed). One that does not hold becomes a warning with your text, and the command ends with exit code 1. Where it holds for a part of an interval only, it says so.",
		Example: "V_cell = 2.6 V\nlimit V_cell <= 2.7 V \"charge to a lower voltage or add a cell\""},
	{Name: "measured", Form: plainForm("measured"),
		Summary: "Sets what the bench or the field said against the worked value: the difference, and, where one of them carries ±, whether the two agree: up to 2 standard uncertainties of the difference they do, up to 3 it is doubtful, beyond they disagree. Pages and --json have it in per cent and in standard uncertainties, too.",
		Example: "t_fly = 108 s ± 6 s\nmeasured t_fly = 1.9 min ± 2 s"},
	{Name: "budget", Form: plainForm("budget"),
		Summary: "Lists which inputs the uncertainty of a quantity comes from: standard uncertainty, contribution and share of each, sorted, with the sum (JCGM 100); pages and --json have value and sensitivity, too. Behind the name may stand how much the interval is to cover: at 99 %, or (k = 3).",
		Example: "C = 50 F within 20 %\nU = 10 V ± 0.1 V\nE = 1/2 * C * U^2\nbudget E"},
	{Name: "correlation", Form: plainForm("correlation"),
		Summary: "Says that two values with ± are off together, as two readings of one instrument are: the correlation coefficient r of their errors, from -1 to 1 (JCGM 100, 5.2). Both may be named by an address, too, such as E(voltage) or cells[2].mass.",
		Example: "U_a = 5 V ± 0.1 V\nU_b = 3 V ± 0.1 V\ncorrelation U_a, U_b = 0.9\nU_between = U_a - U_b"},
	{Name: "vary", Form: plainForm("vary"),
		Summary: "Works the outputs again for each value of a plain value: a range with a step, a list, or the rows of a table for a part that is picked by its key. Two variables are worked in all pairs. Limits that a row breaks are named in it. With a name before it the result is a table: study = vary ….",
		Example: "n_series = 4\nV_full [V] = n_series * 2.5 V\nvary n_series in 3 to 6 by 1: V_full [V]"},
	{Name: "adjust", Form: plainForm("adjust"),
		Summary: "Finds the value of a plain value at which a condition holds; with by, the first step at which it does. Of several the nearest to the present value is taken, and the others are told. Where there is none, the values reached at both ends are told.",
		Example: "turns = 80\nU_peak = turns * 0.15 V\nturns_needed = adjust turns in 50 to 600 until U_peak == 17 V"},
	{Name: "tune", Form: plainForm("tune"),
		Summary: "Finds the value of up to three plain values for which something is least, or most: in whole steps with by, else anywhere in the range. The limits that bear on it are kept, and the one that binds is named.",
		Example: "n = 4\ncost = (n - 6)^2 + n\nn_best = tune n in 3 to 12 by 1 for least cost"},
	{Name: "chart", Form: plainForm("chart"),
		Summary: "Draws lines for worked tables and points for tables of the file, against one axis, into the folder of charts beside the file. Each dimension gets a panel.",
		Example: "n = 4\nU = n * 2.5 V\nstudy = vary n in 3 to 6 by 1: U\nchart \"Voltage by cells\": U [V] against n [1] from study"},
	{Name: "show", Also: []string{"total"}, Form: plainForm("show"),
		Summary: "Puts a table, a list or the fields of a record into the region: all of it, or the columns that are named, in their units. What chooses among the rows stands before the colon or behind the columns, and is done in the order in which it is written; total adds columns up in a last row. Up to 100 rows stand there, with first up to 1000.",
		Example: "show cells\nshow cells: cell, mass [g] where mass <= 20 g sorted by mass falling first 5 total mass"},
	{Name: "where", Also: []string{"sorted", "falling", "first", "least", "most"}, Form: "table where condition, sorted by a (falling), first 5, for least a, for most a",
		Summary: "Chooses rows of a table, puts them in order, or cuts them off: a table again. With for least, or for most, it is the one row that has it, the first of several. Names stand for the columns of the row first, then for what the worksheet names. A row of which it is not known whether it meets the condition is left out; one without the value to sort by stands last. Tables with the same columns are put one under another by +.",
		Example: "light = cells where mass <= 20 g\nhow_many = count(light)\nlightest = cells for least mass\nboth = light + (cells where mass > 20 g)"},
	{Name: "use", Form: plainForm("use"),
		Summary: "Takes in another worksheet, whose quantities and tables then stand behind its name, or a CSV file as a table. The path is relative to this file. The columns of a CSV file may be named, with their units, in place of its head.",
		Example: "use \"parts.md\"\nuse \"rundown.csv\" as log (t [s], U [V])\nm = 4 * parts.strap\nU_mean = mean(log.U)"},
	{Name: "overview", Form: plainForm("overview"),
		Summary: "Puts the whole page into the region in short: every limit with its verdict, what has the least headroom first, then dangers, and lines that could not be worked. It stands where it is wanted, at the top as a rule.",
		Example: "overview\nU = 12 V\nlimit U <= 13 V"},
	{Name: "digits", Form: plainForm("digits"),
		Summary: "How many significant digits are shown: in this file, or of the quantities named. It is 4 where nothing is said. With ± the uncertainty decides.",
		Example: "digits 3\nx = 1 / 3\ny = 2 / 3\ndigits 6 y"},
	{Name: "draws", Form: plainForm("draws"),
		Summary: "Carries uncertainty by random draws from whole distributions (JCGM 101), in place of first-order sensitivities. The same draws are made in every run.",
		Example: "U = 10 V within 5 %\nP = U^2 / (4 Ω)\ndraws 10_000"},
	{Name: "with", Form: "expression with x = value, y = value",
		Summary: "Works an expression again with some plain values replaced, in this worksheet or in one that it uses. It stands at the end of a definition. Only what depends on those values is worked again.",
		Example: "turns = 80\nU_peak = turns * 0.15 V\nU_more = U_peak with turns = 100"},
	{Name: "±", Also: []string{"+-", "uncertainty"}, Form: "value ± spread",
		Summary: "A value with its expanded uncertainty: it lies within the spread with a probability of 95.45 %, two standard uncertainties of a bell curve (JCGM 100). Each ± is one input of its own. The spread may be worked from constants in brackets.",
		Example: "V_full = 10 V ± 0.1 V\nU_meter = 10 V ± (0.5 % * 10 V + 0.02 V)\ntwice = 2 * V_full"},
	{Name: "k", Also: []string{"ν", "nu", "at"}, Form: "value ± spread (k = 2, ν = 9), or value ± spread at 99 %",
		Summary: "What a certificate says of its spread: the coverage factor k, by which it is so many standard uncertainties, or the level of confidence, and the degrees of freedom ν (nu does as well) where few readings stand behind it (JCGM 100, 7.2.4). With ν and no k the spread covers 95.45 % by Student's distribution.",
		Example: "U_ref = 10.003 V ± 0.002 V (k = 2.26, ν = 9)\nm_ref = 100 g ± 3 mg at 99 %\nu_only = 4.999 V ± 0.003 V (k = 1)"},
	{Name: "within", Also: []string{"triangular"}, Form: "value within bound, or within low to high",
		Summary: "A value between hard limits, all between them alike likely: a tolerance that a maker guarantees. Its standard uncertainty is the half width divided by √3 (JCGM 100, 4.3.7). With (triangular) behind it the middle is likelier than the ends, and it is divided by √6 (4.3.9). With (ν = 8) behind it the limits themselves are a guess, as good as so many degrees of freedom (G.4.2); draws take them as they stand.",
		Example: "C = 50 F within 20 %\nR = within 14 mΩ to 18 mΩ"},
	{Name: "if", Also: []string{"then", "else"}, Form: "if condition then a else b",
		Summary: "One of two values, of one dimension. Only the one that is taken is worked.",
		Example: "V = 11 V\nP_heater = if V > 10 V then 3 W else 0 W"},
	{Name: "and", Also: []string{"or", "not"}, Form: "a and b, a or b, not a",
		Summary: "Join truths, such as comparisons. The right side is worked only where it can still decide.",
		Example: "V = 11 V\nready = V > 10 V and not (V > 13 V)"},
	{Name: "true", Also: []string{"false"}, Form: "true or false",
		Summary: "A truth, shown as yes or no.",
		Example: "geared = true\nratio = if geared then 3 else 1"},
	{Name: "table", Form: "<!-- table: name --> above a Markdown table",
		Summary: "Headings such as mass [g] hold numbers, those without a unit text. Rows are picked by the text in their first cell, or counted from 1; cells.mass is a column. An empty cell is an error only where it is used.",
		Example: "cell = cells[\"B50\"]\nm_all = sum(cells.mass)"},
}

// plainForm is a statement's form without the ticks that messages put around it.
func plainForm(verb string) string { return strings.ReplaceAll(forms[verb], "`", "") }
