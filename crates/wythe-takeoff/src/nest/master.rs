//! Column generation for cutting problems: a linear program over patterns, grown by a pricing step
//! (Gilmore and Gomory 1961, 1963). Knows nothing of lengths or sheets.

use good_lp::solvers::microlp::microlp;
use good_lp::{Expression, ProblemVariables, Solution, SolverModel, Variable, variable};

/// Slack for comparing values of the linear program.
pub(super) const EPSILON: f64 = 1e-7;

/// One way to cut a sheet: how much of each demand it yields, and the caller's own record of it.
#[derive(Clone, Debug)]
pub(super) struct Column<P> {
    pub yields: Vec<f64>,
    pub record: P,
}

/// What pricing answers: a pattern, and a value no pattern exceeds.
pub(super) struct Priced<P> {
    pub column: Column<P>,
    /// An upper bound on the worth of every pattern at the prices asked; equals the worth of
    /// `column` when pricing is exact.
    pub ceiling: f64,
}

/// The solved relaxation.
pub(super) struct Relaxation<P> {
    pub columns: Vec<Column<P>>,
    /// How many of each column the relaxation cuts.
    pub amounts: Vec<f64>,
    /// A proven lower bound on the number of sheets (not yet rounded up).
    pub bound: f64,
    /// The prices that prove it: no pattern is worth more than one sheet at them.
    pub prices: Vec<f64>,
}

/// Grows columns until no pattern is worth more than one sheet, or `rounds` are spent.
/// `start` must be able to cover every demand. `None` when the linear program fails numerically;
/// the caller then keeps its area bound.
pub(super) fn relax<P: Clone>(
    demand: &[f64],
    start: Vec<Column<P>>,
    rounds: usize,
    mut price: impl FnMut(&[f64]) -> Option<Priced<P>>,
) -> Option<Relaxation<P>> {
    let mut columns = start;
    let mut bound = 0.0_f64;
    let mut proving = vec![0.0; demand.len()];
    for _ in 0..rounds {
        let prices = shadow_prices(demand, &columns)?;
        let total: f64 = prices.iter().zip(demand).map(|(p, d)| p * d).sum();
        let Some(found) = price(&prices) else { break };
        // Scaling the prices down by the best pattern's worth makes them feasible for the dual,
        // so their total is a bound even before the last round (Farley 1990).
        let scale = found.ceiling.max(1.0);
        if total / scale > bound {
            bound = total / scale;
            proving = prices.iter().map(|p| p / scale).collect();
        }
        let worth: f64 = prices.iter().zip(&found.column.yields).map(|(p, y)| p * y).sum();
        if worth <= 1.0 + EPSILON {
            break;
        }
        columns.push(found.column);
        if whole_sheets(bound) >= whole_sheets(total) && bound > total * (1.0 - 1e-3) {
            break;
        }
    }
    let amounts = amounts(demand, &columns)?;
    Some(Relaxation { columns, amounts, bound, prices: proving })
}

/// The whole number of sheets a fractional bound asks for, forgiving rounding noise.
pub(super) fn whole_sheets(bound: f64) -> usize {
    (bound - 1e-6).ceil().max(0.0) as usize
}

/// The dual of the master program: prices whose every known pattern is worth at most one sheet.
fn shadow_prices<P>(demand: &[f64], columns: &[Column<P>]) -> Option<Vec<f64>> {
    let mut vars = ProblemVariables::new();
    let prices: Vec<Variable> = demand.iter().map(|_| vars.add(variable().min(0.0))).collect();
    let objective: Expression = prices.iter().zip(demand).map(|(&v, &d)| v * d).sum();
    let mut model = vars.maximise(objective).using(microlp);
    for column in columns {
        let worth: Expression = terms(&prices, &column.yields);
        model.add_constraint(worth.leq(1.0));
    }
    let solution = model.solve().ok()?;
    let values: Vec<f64> = prices.iter().map(|&v| solution.value(v).max(0.0)).collect();
    values.iter().all(|v| v.is_finite()).then_some(values)
}

/// The master program itself: fewest sheets, fractions allowed, that meet the demand.
fn amounts<P>(demand: &[f64], columns: &[Column<P>]) -> Option<Vec<f64>> {
    let mut vars = ProblemVariables::new();
    let cut: Vec<Variable> = columns.iter().map(|_| vars.add(variable().min(0.0))).collect();
    let objective: Expression = cut.iter().map(|&v| Expression::from(v)).sum();
    let mut model = vars.minimise(objective).using(microlp);
    for (row, &needed) in demand.iter().enumerate() {
        let made: Expression =
            cut.iter().zip(columns).filter(|(_, c)| c.yields[row] > 0.0).map(|(&v, c)| v * c.yields[row]).sum();
        model.add_constraint(made.geq(needed));
    }
    let solution = model.solve().ok()?;
    let values: Vec<f64> = cut.iter().map(|&v| solution.value(v).max(0.0)).collect();
    values.iter().all(|v| v.is_finite()).then_some(values)
}

fn terms(variables: &[Variable], coefficients: &[f64]) -> Expression {
    variables.iter().zip(coefficients).filter(|(_, c)| **c > 0.0).map(|(&v, &c)| v * c).sum()
}
