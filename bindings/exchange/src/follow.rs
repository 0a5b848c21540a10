use std::time::Duration;

use slingseal_app::App;

use crate::{Address, Exchange, ExchangeError, Pulled, Pushed};

/// What a round did, for whoever watches.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Followed {
    /// Words came, or went.
    Moved(Pushed, Pulled),
    /// The server is away: told once, until it is back.
    Away(ExchangeError),
    /// It is back.
    Back,
}

/// Pushes and pulls again and again until `wait` says to stop. A server that goes away is waited for, a little longer each time.
///
/// # Errors
/// What waiting does not mend: the address, the login, a server that is not what it should be, the home.
pub fn follow(
    address: &Address,
    app: &App,
    photos: bool,
    every: Duration,
    wait: &mut dyn FnMut(Duration) -> bool,
    told: &mut dyn FnMut(&Followed),
) -> Result<(), ExchangeError> {
    let (mut line, mut mark, mut failed): (Option<Exchange>, _, u32) = (None, None, 0);
    loop {
        let round = match line.take().map_or_else(|| Exchange::connect(address), Ok) {
            Ok(mut exchange) => {
                round(&mut exchange, app, photos, &mut mark).inspect(|_| line = Some(exchange))
            }
            Err(error) => Err(error),
        };
        match round {
            Ok((pushed, pulled)) => {
                if failed > 0 {
                    told(&Followed::Back);
                }
                failed = 0;
                if pushed.words > 0 || pulled.looked_at > 0 {
                    told(&Followed::Moved(pushed, pulled));
                }
            }
            Err(error) if error.may_pass() => {
                if failed == 0 {
                    told(&Followed::Away(error));
                }
                (failed, mark) = (failed.saturating_add(1), None);
            }
            Err(error) => return Err(error),
        }
        if !wait(every.saturating_mul(1 << failed.min(4))) {
            return Ok(());
        }
    }
}

fn round(
    exchange: &mut Exchange,
    app: &App,
    photos: bool,
    mark: &mut Option<(u64, u64)>,
) -> Result<(Pushed, Pulled), ExchangeError> {
    let pulled = exchange.pull(app, false, &mut |_| {})?;
    let now = app.written()?;
    let pushed = match *mark == Some(now) {
        true => Pushed::default(),
        false => exchange.push(app, photos, &mut |_| {})?,
    };
    // What another desk was putting there meanwhile is looked at again.
    *mark = (pushed.waiting == 0).then_some(now);
    Ok((pushed, pulled))
}
