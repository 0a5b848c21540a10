package slingseal.handheld

import slingseal.handheld.places.Place
import slingseal.handheld.places.WalkRef
import slingseal.handheld.screens.ArrivalScreen
import slingseal.handheld.screens.AuthorityCodeScreen
import slingseal.handheld.screens.AuthorityCredentialScreen
import slingseal.handheld.screens.AuthorityIssueScreen
import slingseal.handheld.screens.AuthorityListsScreen
import slingseal.handheld.screens.AuthorityNameScreen
import slingseal.handheld.screens.AuthorityPeopleScreen
import slingseal.handheld.screens.AuthorityPersonScreen
import slingseal.handheld.screens.AuthorityScreen
import slingseal.handheld.screens.AuthorityWordsScreen
import slingseal.handheld.screens.BesideScreen
import slingseal.handheld.screens.BoardScreen
import slingseal.handheld.screens.CallsScreen
import slingseal.handheld.screens.CardsScreen
import slingseal.handheld.screens.ClosePinScreen
import slingseal.handheld.screens.ClosePointScreen
import slingseal.handheld.screens.CloseScreen
import slingseal.handheld.screens.ClosedScreen
import slingseal.handheld.screens.CopyKeptScreen
import slingseal.handheld.screens.CopyScreen
import slingseal.handheld.screens.DeficiencyPhotoScreen
import slingseal.handheld.screens.DeficiencyScreen
import slingseal.handheld.screens.ElseScreen
import slingseal.handheld.screens.EndRunScreen
import slingseal.handheld.screens.ExamClassScreen
import slingseal.handheld.screens.ExamKeyScreen
import slingseal.handheld.screens.ExamKeysScreen
import slingseal.handheld.screens.ExamLockScreen
import slingseal.handheld.screens.ExamNameScreen
import slingseal.handheld.screens.ExamPickCardScreen
import slingseal.handheld.screens.ExamPickNameScreen
import slingseal.handheld.screens.ExamPlanScreen
import slingseal.handheld.screens.ExamReadyScreen
import slingseal.handheld.screens.ExamResultCodeScreen
import slingseal.handheld.screens.ExamResultScreen
import slingseal.handheld.screens.ExamResultsScreen
import slingseal.handheld.screens.ExamRevealScreen
import slingseal.handheld.screens.ExamScoreScreen
import slingseal.handheld.screens.ExamSheetScreen
import slingseal.handheld.screens.ExamStandardScreen
import slingseal.handheld.screens.ExamsScreen
import slingseal.handheld.screens.FileScreen
import slingseal.handheld.screens.FindScreen
import slingseal.handheld.screens.FindingScreen
import slingseal.handheld.screens.FindingsScreen
import slingseal.handheld.screens.GearScreen
import slingseal.handheld.screens.HaveScreen
import slingseal.handheld.screens.HookScreen
import slingseal.handheld.screens.InspectionScreen
import slingseal.handheld.screens.InspectionsScreen
import slingseal.handheld.screens.JoinScreen
import slingseal.handheld.screens.MoreScreen
import slingseal.handheld.screens.MoveOutScreen
import slingseal.handheld.screens.MoveScreen
import slingseal.handheld.screens.MovedScreen
import slingseal.handheld.screens.NameScreen
import slingseal.handheld.screens.NewPinScreen
import slingseal.handheld.screens.NotApplicableScreen
import slingseal.handheld.screens.NotFitScreen
import slingseal.handheld.screens.PickScreen
import slingseal.handheld.screens.PlanDraftScreen
import slingseal.handheld.screens.PlanFieldScreen
import slingseal.handheld.screens.PlanLinksScreen
import slingseal.handheld.screens.PlanPieceScreen
import slingseal.handheld.screens.PlanPiecesScreen
import slingseal.handheld.screens.PlanPinScreen
import slingseal.handheld.screens.PlanScreen
import slingseal.handheld.screens.PlanSourceScreen
import slingseal.handheld.screens.PlanTagScreen
import slingseal.handheld.screens.ProcedureScreen
import slingseal.handheld.screens.ProceduresOutScreen
import slingseal.handheld.screens.ProceduresScreen
import slingseal.handheld.screens.RecordScreen
import slingseal.handheld.screens.RecordsScreen
import slingseal.handheld.screens.RefuseScreen
import slingseal.handheld.screens.ReportNoteScreen
import slingseal.handheld.screens.ReportPhotoScreen
import slingseal.handheld.screens.ReportPinScreen
import slingseal.handheld.screens.ReportScreen
import slingseal.handheld.screens.ReportSignScreen
import slingseal.handheld.screens.RequestScreen
import slingseal.handheld.screens.RiggingScreen
import slingseal.handheld.screens.RunMoreScreen
import slingseal.handheld.screens.ScanScreen
import slingseal.handheld.screens.SealScreen
import slingseal.handheld.screens.SetUpScreen
import slingseal.handheld.screens.SettingsScreen
import slingseal.handheld.screens.StartScreen
import slingseal.handheld.screens.StickerScreen
import slingseal.handheld.screens.StoryScreen
import slingseal.handheld.screens.SubjectNameScreen
import slingseal.handheld.screens.SubjectsScreen
import slingseal.handheld.screens.TagScreen
import slingseal.handheld.screens.TeamScreen
import slingseal.handheld.screens.TrustScreen
import slingseal.handheld.screens.TypeScreen
import slingseal.handheld.screens.ValueScreen
import slingseal.handheld.screens.VoidPinScreen
import slingseal.handheld.screens.VoidScreen
import slingseal.handheld.screens.VoidedScreen
import slingseal.handheld.screens.WeighHeightScreen
import slingseal.handheld.screens.WeighNumberScreen
import slingseal.handheld.screens.WeighPointScreen
import slingseal.handheld.screens.WeighScreen
import slingseal.handheld.screens.WeighWordsScreen
import slingseal.handheld.screens.WeighedScreen
import slingseal.handheld.screens.WhatScreen
import slingseal.handheld.screens.WhenScreen
import slingseal.handheld.screens.WhenTimeScreen
import slingseal.handheld.screens.WithdrawPinScreen
import slingseal.handheld.screens.WithdrawScreen
import slingseal.handheld.screens.WriteScreen
import slingseal.handheld.screens.walkScreen

/** The page of each place. */
object Screens {
    fun of(shell: Shell, place: Place): Screen =
        when (place) {
            Place.Start -> StartScreen(shell, place)
            is Place.Scan -> ScanScreen(shell, place)
            is Place.Type -> TypeScreen(shell, place)
            is Place.Tag -> TagScreen(shell, place)
            is Place.Walk -> walkScreen(shell, place)
            Place.Move -> MoveScreen(shell, place)
            Place.Files -> FileScreen(shell, place)
            is Place.MoveOut -> MoveOutScreen(shell, place)
            Place.Have -> HaveScreen(shell, place)
            is Place.Moved -> MovedScreen(shell, place)
            is Place.More ->
                when (val on = place.on) {
                    is WalkRef.Run -> RunMoreScreen(shell, place, on)
                    is WalkRef.Inspection -> MoreScreen(shell, place)
                }
            is Place.Cards -> CardsScreen(shell, place)
            is Place.Findings -> FindingsScreen(shell, place, place.on)
            is Place.Finding -> FindingScreen(shell, place)
            is Place.Pick -> PickScreen(shell, place)
            is Place.Deficiency -> DeficiencyScreen(shell, place)
            is Place.Photo -> DeficiencyPhotoScreen(shell, place)
            is Place.Value -> ValueScreen(shell, place)
            is Place.Write -> WriteScreen(shell, place)
            is Place.Sticker -> StickerScreen(shell, place)
            is Place.NotFit -> NotFitScreen(shell, place)
            is Place.NotApplicable -> NotApplicableScreen(shell, place)
            is Place.Rigging -> RiggingScreen(shell, place)
            is Place.Seal -> SealScreen(shell, place)
            is Place.Hook -> HookScreen(shell, place)
            is Place.Arrival -> ArrivalScreen(shell, place)
            is Place.What -> WhatScreen(shell, place)
            is Place.Refuse -> RefuseScreen(shell, place)
            is Place.ReportNote -> ReportNoteScreen(shell, place)
            is Place.ReportPhoto -> ReportPhotoScreen(shell, place)
            is Place.ReportPin -> ReportPinScreen(shell, place)
            is Place.When -> WhenScreen(shell, place)
            is Place.WhenTime -> WhenTimeScreen(shell, place)
            is Place.Gear -> GearScreen(shell, place)
            is Place.Report -> ReportScreen(shell, place)
            is Place.ReportSign -> ReportSignScreen(shell, place)
            is Place.Records -> RecordsScreen(shell, place)
            is Place.Record -> RecordScreen(shell, place)
            is Place.Void -> VoidScreen(shell, place)
            is Place.VoidPin -> VoidPinScreen(shell, place)
            is Place.Voided -> VoidedScreen(shell, place)
            Place.Find -> FindScreen(shell, place)
            Place.Else -> ElseScreen(shell, place)
            Place.Join -> JoinScreen(shell, place)
            is Place.Team -> TeamScreen(shell, place)
            Place.Board -> BoardScreen(shell, place)
            is Place.Story -> StoryScreen(shell, place)
            is Place.Close -> CloseScreen(shell, place)
            is Place.ClosePoint -> ClosePointScreen(shell, place)
            is Place.ClosePin -> ClosePinScreen(shell, place)
            is Place.Closed -> ClosedScreen(shell, place)
            is Place.Withdraw -> WithdrawScreen(shell, place)
            is Place.WithdrawPin -> WithdrawPinScreen(shell, place)
            is Place.Copy -> CopyScreen(shell, place)
            Place.CopyKept -> CopyKeptScreen(shell, place)
            Place.Plan -> PlanScreen(shell, place)
            is Place.PlanDraft -> PlanDraftScreen(shell, place)
            is Place.PlanField -> PlanFieldScreen(shell, place)
            is Place.PlanSource -> PlanSourceScreen(shell, place)
            is Place.PlanPieces -> PlanPiecesScreen(shell, place)
            is Place.PlanPiece -> PlanPieceScreen(shell, place)
            is Place.PlanLinks -> PlanLinksScreen(shell, place)
            is Place.PlanPin -> PlanPinScreen(shell, place)
            is Place.PlanTag -> PlanTagScreen(shell, place)
            is Place.Weigh -> WeighScreen(shell, place)
            is Place.WeighPoint -> WeighPointScreen(shell, place)
            is Place.WeighHeight -> WeighHeightScreen(shell, place)
            is Place.WeighWords -> WeighWordsScreen(shell, place)
            is Place.WeighNumber -> WeighNumberScreen(shell, place)
            is Place.Weighed -> WeighedScreen(shell, place)
            Place.Authority -> AuthorityScreen.of(shell, place)
            Place.AuthorityName -> AuthorityNameScreen(shell, place)
            is Place.AuthorityLists -> AuthorityListsScreen(shell, place)
            is Place.AuthorityWords -> AuthorityWordsScreen(shell, place)
            is Place.AuthorityIssue -> AuthorityIssueScreen(shell, place)
            is Place.AuthorityShown -> AuthorityCodeScreen(shell, place)
            is Place.AuthorityCredential -> AuthorityCredentialScreen(shell, place)
            Place.AuthorityPeople -> AuthorityPeopleScreen(shell, place)
            is Place.AuthorityPerson -> AuthorityPersonScreen(shell, place)
            Place.Procedures -> ProceduresScreen(shell, place)
            is Place.Procedure -> ProcedureScreen(shell, place)
            is Place.ProceduresOut -> ProceduresOutScreen(shell, place)
            Place.Subjects -> SubjectsScreen(shell, place)
            Place.Inspections -> InspectionsScreen(shell, place)
            is Place.SubjectName -> SubjectNameScreen(shell, place)
            is Place.Inspection -> InspectionScreen(shell, place)
            Place.SetUp -> SetUpScreen(shell, place)
            is Place.Trust -> TrustScreen(shell, place)
            is Place.TrustBeside -> BesideScreen(shell, place)
            Place.Request -> RequestScreen(shell, place)
            Place.Name -> NameScreen(shell, place)
            is Place.NewPin -> NewPinScreen(shell, place)
            is Place.Settings -> SettingsScreen(shell, place)
            Place.Exams -> ExamsScreen(shell, place)
            is Place.ExamPlan -> ExamPlanScreen(shell, place)
            is Place.ExamCards -> ExamPickCardScreen(shell, place)
            is Place.ExamNames -> ExamPickNameScreen(shell, place)
            is Place.ExamStandard -> ExamStandardScreen(shell, place)
            is Place.ExamLock -> ExamLockScreen(shell, place)
            Place.ExamKeys -> ExamKeysScreen(shell, place)
            is Place.ExamKey -> ExamKeyScreen(shell, place)
            is Place.ExamReveal -> ExamRevealScreen(shell, place)
            is Place.ExamName -> ExamNameScreen(shell, place)
            is Place.ExamReady -> ExamReadyScreen(shell, place)
            is Place.ExamCalls -> CallsScreen(shell, place)
            is Place.ExamEnd -> EndRunScreen(shell, place, place.on)
            is Place.ExamSheet -> ExamSheetScreen(shell, place)
            is Place.ExamScore -> ExamScoreScreen(shell, place)
            Place.ExamResults -> ExamResultsScreen(shell, place)
            is Place.ExamResult -> ExamResultScreen(shell, place)
            is Place.ExamResultCode -> ExamResultCodeScreen(shell, place)
            Place.ExamClass -> ExamClassScreen(shell, place)
        }
}
