//! Joining the centres of several quilts.

use super::args::{Arguments, CentresArgs};
use super::exit::Refusal;
use super::out::Out;
use super::read::{cloths, length, number, pair, room, use_quilt};
use grow::centres::{Arrangement, CentresChoice};
use serde_json::{Value, json};
use workroom::asks::JoinAsk;
use workroom::quilts::head_named;

pub(super) fn join(arguments: &Arguments, asked: &CentresArgs, out: &Out) -> Result<(), Refusal> {
    let mut room = room(arguments)?;
    let [width_in, height_in] = pair(&asked.size, 'x', "size")?;
    let rows = asked.rows.as_deref().map(rows).transpose()?;
    let choice = CentresChoice {
        arrangement: rows.unwrap_or(Arrangement::Mixed),
        tolerance_in: length(&asked.tolerance, "tolerance")?,
        least_coping_in: length(&asked.least_coping, "least coping")?,
        most_coping_in: asked.most_coping.as_deref().map(|most| length(most, "most coping")).transpose()?,
        most_coping_share: number(asked.most_share, "most share")? / 100.0,
        may_turn: asked.turn,
        coping: cloths(&mut room, &asked.coping)?,
        seed: asked.seed,
        ..CentresChoice::new(width_in, height_in)
    };
    let square = asked.square.iter().map(|size| pair(size, 'x', "square"));
    let ask = JoinAsk {
        centres: asked.centres.iter().map(|name| head_named(name)).collect(),
        square_in: square.collect::<Result<_, _>>()?,
        choice,
    };
    let report = if asked.look {
        room.free_name(&asked.name)?;
        room.look_at_joining(&ask)?
    } else {
        let (_, report) = room.join_centres(&asked.name, &ask)?;
        use_quilt(&mut room, &asked.name)?;
        report
    };
    let mut words = report.words();
    words.push(if asked.look {
        "Nothing was changed.".to_owned()
    } else {
        format!(
            "They lie joined as {}. The quilts that they came from stay as they are, and count on the same cloth.",
            asked.name
        )
    });
    let value = serde_json::to_value(&report).unwrap_or(Value::Null);
    out.say(&words.join("\n"), &json!({ "quilt": asked.name, "changed": !asked.look, "centres": value }));
    Ok(())
}

fn rows(text: &str) -> Result<Arrangement, Refusal> {
    let read = |part: &str| part.trim().parse::<usize>().ok();
    let both = text.split_once('x').and_then(|(across, down)| Some((read(across)?, read(down)?)));
    both.map(|(across, down)| Arrangement::Rows { across, down }).ok_or_else(|| {
        Refusal::bad(format!("rows: `{text}` is not so many across and down"), "Write it as 4x5.")
    })
}
