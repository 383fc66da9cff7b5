//! What a piece takes or has taken: cloth, thread and hours, in rows.

use crate::asks::{Asked, EnoughReport, GoodsNames, StageThread};
use papers::flow::{Block, Column, Table};
use quilt::length::{LengthUnit, whole_up};
use quilt::stage::enough::{Goods, Line, Unit, Used};

/// What it used, in rows; or why that can't be told.
#[derive(Default)]
pub(super) struct Taken {
    pub(super) used: Vec<[String; 4]>,
    pub(super) besides: Vec<[String; 2]>,
    pub(super) thread: Vec<[String; 2]>,
    pub(super) hours: f64,
    by_stage: Vec<[String; 2]>,
    pub(super) untold: Option<String>,
    unit: LengthUnit,
}

impl Taken {
    /// Of a report, with the names of the goods; areas and lengths by a unit.
    pub(super) fn of(takes: Asked<EnoughReport>, names: &GoodsNames, unit: LengthUnit) -> Self {
        match takes {
            Ok(takes) => Self {
                used: used(&takes, names, unit),
                besides: others(&takes, names, unit),
                thread: thread(&takes, unit),
                hours: takes.enough.hours,
                by_stage: hours(&takes),
                untold: None,
                unit,
            },
            Err(why) => Self { untold: Some(why.to_string()), unit, ..Self::default() },
        }
    }

    pub(super) fn blocks(&self) -> Vec<Block> {
        if let Some(why) = &self.untold {
            return vec![Block::section("What it used"), Block::body(format!("That can't be told: {why}."))];
        }
        let columns = vec![
            Column::words("Cloth", 4.0),
            Column::numbers("Patches", 1.2),
            Column::numbers(format!("Cut, {}", self.unit.squares()), 1.8),
            Column::numbers(format!("Shows, {}", self.unit.squares()), 1.8),
        ];
        let rows = self.used.iter().map(|row| row.to_vec()).collect();
        let mut blocks = vec![Block::section("What it used"), Block::Table(Table { columns, rows })];
        if !self.besides.is_empty() {
            blocks.push(pairs(["Besides", "How much"], &self.besides));
        }
        let mut columns = Vec::new();
        if !self.thread.is_empty() {
            let head = match self.unit {
                LengthUnit::Inches => "Yards, above and below",
                LengthUnit::Centimetres => "Metres, above and below",
            };
            columns.push((1.0, vec![Block::section("Thread"), pairs(["For", head], &self.thread)]));
        }
        let hours = whole_up(self.hours);
        let told = format!("About {hours:.0} hours by your habits, from the first cut to the last stitch.");
        let by_stage = pairs(["Stage", "Hours"], &self.by_stage);
        columns.push((1.0, vec![Block::section("Hours"), by_stage, Block::body(told)]));
        blocks.push(Block::Beside(columns));
        blocks
    }
}

pub(super) fn pairs([left, right]: [&str; 2], rows: &[[String; 2]]) -> Block {
    let columns = vec![Column::words(left, 3.0), Column::words(right, 4.0)];
    Block::Table(Table { columns, rows: rows.iter().map(|row| row.to_vec()).collect() })
}

/// Each print of the top: its name, patches, what was cut, what shows.
fn used(takes: &EnoughReport, names: &GoodsNames, unit: LengthUnit) -> Vec<[String; 4]> {
    let row = |used: &Used| {
        let areas = [used.cut_in2, used.finished_in2].map(|area| format!("{:.0}", unit.of_squares(area)));
        let [cut, shows] = areas;
        [names.named(&used.goods), used.patches.to_string(), cut, shows]
    };
    let mut prints: Vec<&Used> = takes.used.prints.iter().collect();
    prints.sort_by(|a, b| b.finished_in2.total_cmp(&a.finished_in2));
    prints.into_iter().map(row).collect()
}

/// What else it takes: all goods but the top's own cloth and thread, which are told by themselves.
fn others(takes: &EnoughReport, names: &GoodsNames, unit: LengthUnit) -> Vec<[String; 2]> {
    let in_top = |goods: &Goods| takes.used.prints.iter().any(|used| used.goods == *goods);
    let lines = takes.enough.lines.iter();
    let lines = lines.filter(|line| !in_top(&line.goods) && !matches!(line.goods, Goods::Thread { .. }));
    let amount = |line: &Line| match line.unit {
        Unit::Pieces if whole_up(line.needed) <= 1.0 => "1 piece".to_owned(),
        Unit::Pieces => format!("{:.0} pieces", whole_up(line.needed)),
        Unit::SquareInches => unit.area_up(line.needed),
        Unit::Inches => match unit {
            LengthUnit::Inches => format!("{:.0} inches", whole_up(line.needed)),
            LengthUnit::Centimetres => unit.length(line.needed, 8),
        },
    };
    lines.map(|line| [names.named(&line.goods), amount(line)]).collect()
}

fn thread(takes: &EnoughReport, unit: LengthUnit) -> Vec<[String; 2]> {
    let lengths = |inches: f64| unit.of_thread(inches);
    let row = |stage: &StageThread| {
        let plan = &stage.plan;
        [
            stage.stage.to_string(),
            format!("{:.0} and {:.0}", lengths(plan.needle_in), lengths(plan.bobbin_in)),
        ]
    };
    takes.thread.iter().map(row).collect()
}

fn hours(takes: &EnoughReport) -> Vec<[String; 2]> {
    let stages = takes.enough.stages.iter().filter(|stage| stage.hours >= 0.05);
    stages.map(|stage| [stage.stage.to_string(), format!("{:.1}", stage.hours)]).collect()
}
